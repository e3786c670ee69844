#include "desk/costs/record_amounts.h"

#include <algorithm>
#include <unordered_map>

#include "desk/archive/list_boxes.h"
#include "desk/recording/show_progress.h"
#include "desk/recording/work_pace.h"
#include "desk/site/site_summary.h"
#include "methods/statistics/quantile.h"

namespace sherd::desk {

namespace {

constexpr double kEnoughHours = 0.25;
constexpr std::size_t kFewestDays = 3;

}  // namespace

Result<RecordAmounts> record_amounts(const CostSheetRequest& request, const Session& session, Environment& environment,
                                     Progress& progress) {
  RecordAmounts out;
  SHERD_TRY(const SiteResponse site, summarise_site({request.store, request.site}, environment, progress));
  SHERD_TRY(const BoxesResponse boxes, boxes_of(session));
  double bags = 0;
  for (const BoxEntry& box : boxes.boxes) bags += static_cast<double>(box.bags.size());
  const auto rows = [&](const char* table) {
    const auto found = site.tables.find(table);
    return found == site.tables.end() ? 0.0 : static_cast<double>(found->second);
  };
  const double sherds = static_cast<double>(site.total.count.value_or(0));
  out.amounts = {{EstimateBasis::boxes, static_cast<double>(boxes.boxes.size())},
                 {EstimateBasis::bags, std::max(bags, rows("bags"))},
                 {EstimateBasis::weight, site.total.weight_g.value_or(0) / 1000},
                 {EstimateBasis::sherds, sherds},
                 {EstimateBasis::lines, static_cast<double>(site.lines)},
                 {EstimateBasis::vessels, static_cast<double>(site.total.vessels.value_or(0))},
                 {EstimateBasis::samples, rows("samples")},
                 {EstimateBasis::drawings, rows("drawings")}};
  SHERD_TRY(const ProgressResponse done, show_progress({request.store, "", request.site, {}}, environment, progress));
  out.sherds_left = std::max(0.0, done.sherds.expected - done.sherds.recorded);
  SHERD_TRY(const Table lines, session.store->read({session.site.code, Kind::sherds, {"count", "checked_by"}, {}}));
  for (std::size_t row = 0; row < lines.rows(); ++row) {
    const Column& count = lines.columns()[0];
    if (lines.columns()[1].text(row).empty() && !count.is_null(row))
      out.sherds_unchecked += static_cast<double>(count.integer(row));
  }
  return out;
}

Result<std::optional<MeasuredPace>> measured_pace(const Session& session, const Environment& environment) {
  std::optional<MeasuredPace> out;
  SHERD_CHECK(look_at_lines(session, environment, [&](const LinesInShort& lines) -> Result<void> {
    const std::vector<WorkDay> days = work_days(lines, "", 0);
    std::unordered_map<std::int64_t, std::size_t> day_of;
    for (std::size_t i = 0; i < days.size(); ++i) {
      for (const std::int64_t seq : days[i].changes) day_of.emplace(seq, i);
    }
    std::vector<std::int64_t> sherds(days.size(), 0), touched(days.size(), 0);
    for (const LineDigest& line : lines.lines) {
      const auto found = day_of.find(line.changed);
      if (line.uid.empty() || found == day_of.end()) continue;
      sherds[found->second] += line.count.value_or(0);
      ++touched[found->second];
    }
    MeasuredPace pace;
    std::vector<double> paces;
    for (std::size_t i = 0; i < days.size(); ++i) {
      if (days[i].hours < kEnoughHours || sherds[i] == 0) continue;
      paces.push_back(static_cast<double>(sherds[i]) / days[i].hours);
      pace.hours += days[i].hours;
      pace.sherds += sherds[i];
      pace.lines += touched[i];
    }
    if (paces.size() < kFewestDays) return {};
    std::ranges::sort(paces);
    pace.days = std::ssize(paces);
    pace.pace_low = statistics::quantile(paces, 0.1);
    pace.pace_likely = statistics::quantile(paces, 0.5);
    pace.pace_high = statistics::quantile(paces, 0.9);
    pace.lines_hour = static_cast<double>(pace.lines) / pace.hours;
    out = pace;
    return {};
  }));
  return out;
}

}  // namespace sherd::desk
