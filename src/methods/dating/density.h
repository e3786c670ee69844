#pragma once

#include <cstdint>
#include <vector>

#include "methods/dating/evidence.h"
#include "methods/dating/evidence_years.h"

namespace sherd::dating {

/// Years first..last, both included.
struct Window {
  Year first, last;
};

/// Probability of each year from `first` on; they sum to 1. Without years where the evidence leaves none.
struct YearDensity {
  Year first;
  std::vector<double> at;

  bool empty() const { return at.empty(); }
  Year last() const { return {first.value + static_cast<std::int64_t>(at.size()) - 1}; }
};

/// Height of a row's curve in one year, 0..1. Inside earliest..latest it is 1, but rises in a straight line from
/// earliest to full_from, and falls from full_to to latest, where these are given; there the first and the last year
/// stand at 1 / (n + 1), n the years of the slope. Without them a span has a shoulder outside: k years beyond the end
/// it stands at 1 - k / (shoulder + 1). A limit is 0 outside.
double height_of(const Evidence& row, Year year, std::int64_t shoulder);

/// The product of the curves over the years that all allow, within the window, made to sum to 1.
///
/// A piece of several equally specific rows has the highest of their curves; one that can be read in several ways, the
/// mean of the readings' products by weight, a reading without years counting 1. What is usual only is 0.9 of its curve
/// and 0.1 of a flat one, each made to sum to 1 over the years allowed; within a reading, the heights themselves.
YearDensity combined(const std::vector<const Piece*>& pieces, Window window, std::int64_t shoulder);

/// Shannon entropy in bits; 0 without years.
double entropy_bits(const YearDensity& density);

/// The fewest years that hold `mass` of the density, as intervals in ascending order: the likeliest years first, of
/// equally likely ones those nearest the median, so that a flat density gives its middle.
std::vector<YearRange> shortest(const YearDensity& density, double mass);

/// The longest run of years of the highest density, the first of several.
YearRange likeliest(const YearDensity& density);

}  // namespace sherd::dating
