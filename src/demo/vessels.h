#pragma once

#include <optional>
#include <span>

#include "base/random.h"
#include "demo/scenario.h"

/// The life of a vessel from the kiln to the break.
namespace sherd::demo {

/// Mean use-life in years, the share of vessels kept for long and their mean use-life; both geometric. Chosen, no
/// source.
constexpr double kUseLife = 15;
constexpr double kLongKeptShare = 0.02;
constexpr double kLongUseLife = 150;

/// Years between making and breaking.
std::int64_t draw_use_life(Random& random);

/// A ware comes in and goes out over so many years, or a fifth of its range where that is shorter. Chosen, no source.
constexpr double kShoulderYears = 10;

/// How much of its full market a recipe has in a year: 0 outside its range, rising and falling at the ends, 1 between.
double market(const Recipe& recipe, Year made);

struct Choice {
  const Recipe* recipe;
  TrueVessel vessel;
};
/// One vessel of that supply: year of breaking uniform, use-life drawn, and a recipe among those made in the year that
/// leaves. Nothing where no such ware was made in 1,000 tries.
std::optional<Choice> draw_vessel(const Supply& supply, std::span<const Recipe> recipes, Random& random);

}  // namespace sherd::demo
