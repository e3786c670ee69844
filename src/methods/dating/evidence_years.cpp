#include "methods/dating/evidence_years.h"

#include <algorithm>

namespace sherd::dating {

namespace {

std::optional<Year> later_start(const std::optional<Year>& a, const std::optional<Year>& b) {
  return a && b ? std::max(a, b) : (a ? a : b);
}
std::optional<Year> earlier_end(const std::optional<Year>& a, const std::optional<Year>& b) {
  return a && b ? std::min(a, b) : (a ? a : b);
}

bool starts_before(const YearRange& a, const YearRange& b) {
  if (!a.earliest || !b.earliest) return !a.earliest && b.earliest;
  return *a.earliest < *b.earliest;
}

}  // namespace

YearSet every_year() { return {YearRange{}}; }

YearSet united_years(std::vector<YearRange> ranges) {
  std::sort(ranges.begin(), ranges.end(), starts_before);
  YearSet out;
  for (const YearRange& range : ranges) {
    const bool joins = !out.empty() &&
                       (!out.back().latest || !range.earliest || range.earliest->value <= out.back().latest->value + 1);
    if (!joins) {
      out.push_back(range);
    } else if (out.back().latest) {
      out.back().latest = range.latest ? std::max(out.back().latest, range.latest) : std::nullopt;
    }
  }
  return out;
}

YearSet common_years(const YearSet& a, const YearSet& b) {
  std::vector<YearRange> out;
  for (const YearRange& x : a) {
    for (const YearRange& y : b) {
      const YearRange both{later_start(x.earliest, y.earliest), earlier_end(x.latest, y.latest)};
      if (!both.closed() || *both.earliest <= *both.latest) out.push_back(both);
    }
  }
  return united_years(std::move(out));
}

bool has_year(const YearSet& years, Year year) {
  return std::any_of(years.begin(), years.end(), [&](const YearRange& range) {
    return (!range.earliest || *range.earliest <= year) && (!range.latest || year <= *range.latest);
  });
}

YearRange hull_of(const YearSet& years) {
  return years.empty() ? YearRange{} : YearRange{years.front().earliest, years.back().latest};
}

YearRange reach_of(const Evidence& row, std::int64_t shoulder) {
  YearRange out{row.earliest, row.latest};
  if (nature_of(row) == Nature::limit) return out;
  if (out.earliest && !row.full_from) out.earliest->value -= shoulder;
  if (out.latest && !row.full_to) out.latest->value += shoulder;
  return out;
}

YearSet allowed_years(const Piece& piece, std::int64_t shoulder) {
  std::vector<YearRange> ranges;
  for (const DatedRow* row : piece.rows) {
    if (nature_of(row->evidence) == Nature::usual) return every_year();
    ranges.push_back(reach_of(row->evidence, shoulder));
  }
  for (const Piece::Reading& reading : piece.readings) {
    std::vector<const Piece*> pieces;
    for (const Piece& part : reading.pieces) pieces.push_back(&part);
    const YearSet years = allowed_years(pieces, shoulder);
    ranges.insert(ranges.end(), years.begin(), years.end());
  }
  return united_years(std::move(ranges));
}

YearSet allowed_years(const std::vector<const Piece*>& pieces, std::int64_t shoulder) {
  YearSet out = every_year();
  for (const Piece* piece : pieces) out = common_years(out, allowed_years(*piece, shoulder));
  return out;
}

}  // namespace sherd::dating
