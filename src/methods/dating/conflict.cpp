#include "methods/dating/conflict.h"

#include <algorithm>
#include <set>

namespace sherd::dating {

namespace {

/// A year of every stretch on which the same pieces allow the years: the starts of ranges, and one before them all.
std::set<Year> years_to_try(const std::vector<YearSet>& allowed) {
  std::set<Year> years;
  for (const YearSet& set : allowed) {
    for (const YearRange& range : set) {
      if (range.earliest) years.insert(*range.earliest);
      if (range.latest) years.insert(Year{range.latest->value + 1});
    }
  }
  years.insert(years.empty() ? Year{0} : Year{years.begin()->value - 1});
  return years;
}

}  // namespace

std::vector<std::vector<std::size_t>> smallest_drops(const std::vector<YearSet>& allowed) {
  std::set<std::vector<std::size_t>> sets;
  std::size_t smallest = allowed.size();
  for (const Year year : years_to_try(allowed)) {
    std::vector<std::size_t> against;
    for (std::size_t i = 0; i < allowed.size(); ++i) {
      if (!has_year(allowed[i], year)) against.push_back(i);
    }
    smallest = std::min(smallest, against.size());
    sets.insert(std::move(against));
  }
  std::vector<std::vector<std::size_t>> out;
  std::copy_if(sets.begin(), sets.end(), std::back_inserter(out),
               [&](const auto& set) { return set.size() == smallest; });
  return out;
}

}  // namespace sherd::dating
