#include "methods/dating/when_others.h"

#include <algorithm>
#include <bit>
#include <set>

namespace sherd::dating {

namespace {

/// The rows from memory among the evidence.
void add_memory(const Piece& piece, std::vector<const DatedRow*>& out) {
  for (const DatedRow* row : piece.rows) {
    if (row->evidence.known == Known::memory) out.push_back(row);
  }
  for (const Piece::Reading& reading : piece.readings) {
    for (const Piece& part : reading.pieces) add_memory(part, out);
  }
}

/// The words of the rows that `sets` picks, or of all where it picks none.
template <class Sets>
std::vector<std::string> words_of_rows(const std::vector<const DatedRow*>& rows, Sets sets) {
  const bool any = std::any_of(rows.begin(), rows.end(), sets);
  std::vector<std::string> out;
  for (const DatedRow* row : rows) {
    const std::string words = keys_text(row->evidence);
    if ((!any || sets(row)) && std::find(out.begin(), out.end(), words) == out.end()) out.push_back(words);
  }
  return out;
}

MemoryEnd end_from_memory(std::string end, std::optional<Year> Evidence::* member, const std::optional<Year>& now,
                          const std::optional<Year>& then, const std::vector<const DatedRow*>& rows) {
  return {std::move(end), now, then, words_of_rows(rows, [&](const DatedRow* row) {
            return nature_of(row->evidence) != Nature::usual && row->evidence.*member == now;
          })};
}

/// The question with another ware in place of fabric and ware; the ware is the last observation.
WhenQuestion with_ware(const WhenQuestion& question, const std::string& ware) {
  WhenQuestion out;
  out.window = question.window;
  out.shoulder = question.shoulder;
  std::vector<std::size_t> new_place(question.observations.size(), kMostObservations);
  for (std::size_t i = 0; i < question.observations.size(); ++i) {
    const Observation& seen = question.observations[i];
    if (seen.key == kWareKey || seen.key == kFabricKey) continue;
    new_place[i] = out.observations.size();
    out.observations.push_back(seen);
  }
  for (const OtherReading& reading : question.readings) {
    if (new_place[reading.observation] == kMostObservations) continue;
    out.readings.push_back(reading);
    out.readings.back().observation = new_place[reading.observation];
  }
  out.observations.push_back({kWareKey, ware});
  return out;
}

std::set<std::string> other_wares(const std::vector<DatedRow>& rows, const WhenQuestion& question) {
  std::set<std::string> wares;
  for (const DatedRow& row : rows) {
    if (!row.evidence.ware.empty() && row.evidence.status != "retired") wares.insert(row.evidence.ware);
  }
  for (const Observation& seen : question.observations) {
    if (seen.key == kWareKey) wares.erase(seen.value);
  }
  return wares;
}

}  // namespace

std::vector<MemoryEnd> ends_from_memory(const std::vector<Match>& matches, const Gathered& gathered,
                                        const WhenQuestion& question, Window window) {
  std::vector<const DatedRow*> rows;
  for (const Piece& piece : gathered.pieces) add_memory(piece, rows);
  if (rows.empty()) return {};
  const Gathered without = gather(matches, question, false);
  const std::vector<const Piece*> with_all = pointers_to(gathered.pieces), with_less = pointers_to(without.pieces);
  const YearRange now = hull_of(allowed_years(with_all, 0)), then = hull_of(allowed_years(with_less, 0));
  std::vector<MemoryEnd> out;
  if (now.earliest != then.earliest)
    out.push_back(end_from_memory("earliest", &Evidence::earliest, now.earliest, then.earliest, rows));
  if (now.latest != then.latest)
    out.push_back(end_from_memory("latest", &Evidence::latest, now.latest, then.latest, rows));
  if (likeliest(combined(with_all, window, question.shoulder)) !=
      likeliest(combined(with_less, window, question.shoulder)))
    out.push_back({"most_likely", {}, {}, words_of_rows(rows, [](const DatedRow*) { return true; })});
  return out;
}

std::vector<WhenAlternative> alternatives_to(const std::vector<DatedRow>& rows, const WhenQuestion& question) {
  std::vector<std::pair<int, WhenAlternative>> found;
  for (const std::string& ware : other_wares(rows, question)) {
    const WhenQuestion other = with_ware(question, ware);
    const std::uint64_t ware_bit = std::uint64_t{1} << (other.observations.size() - 1);
    std::uint64_t region = 0, borne_out = 0;
    for (std::size_t i = 0; i < other.observations.size(); ++i) {
      if (other.observations[i].key == kRegionKey) region |= std::uint64_t{1} << i;
    }
    const Gathered gathered = gather(match_rows(rows, other.observations), other, true);
    const YearSet years = allowed_years(pointers_to(gathered.pieces), 0);
    WhenAlternative alternative;
    for (const Match& match : gathered.held) {
      const Evidence& row = match.row->evidence;
      const std::uint64_t beside = match.seen & ~ware_bit & ~region;
      if ((match.seen & ware_bit) == 0 || beside == 0) continue;
      if (common_years(years, {YearRange{row.earliest, row.latest}}).empty()) continue;
      borne_out |= beside;
      const std::string words = keys_text(row);
      if (std::find(alternative.rests_on.begin(), alternative.rests_on.end(), words) == alternative.rests_on.end())
        alternative.rests_on.push_back(words);
    }
    if (alternative.rests_on.empty() || years.empty()) continue;
    alternative.ware = ware;
    alternative.earliest = hull_of(years).earliest;
    alternative.latest = hull_of(years).latest;
    found.emplace_back(std::popcount(borne_out), std::move(alternative));
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<WhenAlternative> out;
  for (auto& [borne_out, alternative] : found) out.push_back(std::move(alternative));
  return out;
}

}  // namespace sherd::dating
