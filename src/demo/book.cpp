#include "demo/book.h"

#include <fmt/format.h>

#include <array>
#include <chrono>
#include <map>

#include "demo/streams.h"

namespace sherd::demo {

namespace {

constexpr std::int64_t kLinesADay = 36;
constexpr std::size_t kLinesABag = 12;
constexpr std::int64_t kBagLimitMg = 2'500'000;
/// A box is begun with a new context once it holds this much, and never filled beyond kBoxFullMg.
constexpr std::int64_t kBoxClosesMg = 250'000;
constexpr std::int64_t kBoxFullMg = 2'300'000;

void add_rims(DemoSite& site, const Draft& draft) {
  if (!draft.rim_rows) return;
  for (const MeasuredRim& rim : draft.rims) {
    Rim row{
        .record = draft.line.record, .rim_percent = Percent{10 * rim.percent}, .rim_diameter = Length{100 * rim.mm}};
    if (rim.percent < 5) row.class_width = Length{4000};
    row.certainty = rim.percent < 8 ? Certainty::probable : Certainty::sure;
    row.vessel = draft.line.vessel;
    site.rims.push_back(std::move(row));
  }
}

/// Lines of one vessel within a context: each is tied to the first.
void add_joins(DemoSite& site, const std::vector<Draft>& drafts, Random& random) {
  std::map<std::string, std::string> first;
  for (const Draft& draft : drafts) {
    const RecordLine& line = draft.line;
    if (line.vessel.empty()) continue;
    const auto [known, is_new] = first.emplace(line.vessel, line.record);
    if (is_new) continue;
    const double u = random.uniform();
    const JoinKind kind = u < 0.3 ? JoinKind::join_fresh : u < 0.75 ? JoinKind::join_old : JoinKind::same_vessel;
    site.joins.push_back({known->second, line.record, kind, line.vessel});
  }
}

void bag_lines(std::vector<Draft>& drafts, std::int64_t& bag) {
  std::size_t lines = 0;
  std::int64_t mg = 0;
  for (Draft& draft : drafts) {
    if (lines == 0 || lines == kLinesABag || mg + draft.line.weight->mg > kBagLimitMg) {
      ++bag;
      lines = 0;
      mg = 0;
    }
    draft.line.bag = std::to_string(bag);
    mg += draft.line.weight->mg;
    ++lines;
  }
}

void box_lines(DemoSite& site) {
  std::map<std::string, std::int64_t> bag_mg;
  for (const RecordLine& line : site.sherds) bag_mg[line.bag] += line.weight->mg;
  std::int64_t box = 1;
  std::int64_t held = 0;
  const RecordLine* last = nullptr;
  for (RecordLine& line : site.sherds) {
    if (last == nullptr || line.bag != last->bag) {
      const bool new_context = last != nullptr && line.context != last->context;
      if (held > 0 && ((new_context && held >= kBoxClosesMg) || held + bag_mg[line.bag] > kBoxFullMg)) {
        ++box;
        held = 0;
      }
      held += bag_mg[line.bag];
    }
    line.box = std::to_string(box);
    last = &line;
  }
}

/// The last fifth is still to be checked; nobody checks their own lines.
void sign_lines(DemoSite& site) {
  constexpr std::array<std::string_view, 3> kRecorders{"R1", "R2", "R3"};
  const std::size_t checked = site.sherds.size() * 4 / 5;
  for (std::size_t i = 0; i < site.sherds.size(); ++i) {
    RecordLine& line = site.sherds[i];
    const std::size_t who = (i / 160) % kRecorders.size();
    line.recorder = kRecorders[who];
    line.recorded_on = recording_day(site.seed, static_cast<std::int64_t>(i) / kLinesADay);
    if (i < checked) line.checked_by = kRecorders[(who + 1) % kRecorders.size()];
  }
}

}  // namespace

std::string recording_day(std::uint64_t seed, std::int64_t n) {
  using namespace std::chrono;
  Random random(seed, kDaysStream);
  const sys_days monday = sys_days{year{2026} / March / 2} + weeks{random.below(8)};
  const year_month_day day{monday + days{7 * (n / 5) + n % 5}};
  return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
                     static_cast<unsigned>(day.day()));
}

void book(DemoSite& site, std::vector<std::vector<Draft>>& drafts) {
  Random random(site.seed, kJoinsStream);
  std::int64_t record = kFirstRecord;
  std::int64_t bag = 0;
  for (std::vector<Draft>& context : drafts) {
    for (Draft& draft : context) {
      settle_rims(draft);
      draft.line.record = std::to_string(record++);
    }
    bag_lines(context, bag);
    add_joins(site, context, random);
    for (const Draft& draft : context) {
      add_rims(site, draft);
      site.sherds.push_back(draft.line);
    }
  }
  box_lines(site);
  sign_lines(site);
}

}  // namespace sherd::demo
