#pragma once

#include <vector>

#include "methods/dating/evidence.h"
#include "model/year.h"

/// Which years evidence allows at all, without regard to how likely they are.
namespace sherd::dating {

/// Ranges in ascending order, apart from each other; an open end has no year. Empty: no year at all.
using YearSet = std::vector<YearRange>;

YearSet every_year();
YearSet common_years(const YearSet& a, const YearSet& b);
YearSet united_years(std::vector<YearRange> ranges);
bool has_year(const YearSet& years, Year year);
/// From the first to the last year of the set; both ends open where the set is empty or open.
YearRange hull_of(const YearSet& years);

/// How far `shoulder` years reach beyond the ends of a span. A limit has none, nor has an end whose row says from
/// when, or until when, the ware was in full production.
YearRange reach_of(const Evidence& row, std::int64_t shoulder);

/// The years that a piece of evidence allows: its limits or spans, widened by `shoulder`. What is usual only allows
/// every year. Equally specific rows allow the years of any of them; readings, those of any of them.
YearSet allowed_years(const Piece& piece, std::int64_t shoulder);
/// The years that all allow.
YearSet allowed_years(const std::vector<const Piece*>& pieces, std::int64_t shoulder);

}  // namespace sherd::dating
