#include "demo/vessels.h"

#include <algorithm>

namespace sherd::demo {

namespace {

bool is_wanted(const Supply& supply, const Recipe& recipe) {
  if (supply.wares.empty()) return true;
  return std::ranges::any_of(
      supply.wares, [&](const std::string& ware) { return ware == recipe.fabric || ware == recipe.ware_group; });
}

const Recipe* choose(const Supply& supply, std::span<const Recipe> recipes, Year made, Random& random) {
  const auto weight = [&](const Recipe& recipe) {
    return is_wanted(supply, recipe) ? recipe.share * market(recipe, made) : 0.0;
  };
  double total = 0;
  for (const Recipe& recipe : recipes) total += weight(recipe);
  if (total <= 0) return nullptr;
  double left = random.uniform() * total;
  const Recipe* chosen = nullptr;
  for (const Recipe& recipe : recipes) {
    const double w = weight(recipe);
    if (w <= 0) continue;
    chosen = &recipe;
    left -= w;
    if (left < 0) break;
  }
  return chosen;
}

}  // namespace

std::int64_t draw_use_life(Random& random) {
  const bool long_kept = random.uniform() < kLongKeptShare;
  return random.geometric(long_kept ? kLongUseLife : kUseLife);
}

double market(const Recipe& recipe, Year made) {
  if (made < recipe.earliest || made > recipe.latest) return 0;
  const auto length = static_cast<double>(recipe.latest.value - recipe.earliest.value + 1);
  const double shoulder = std::min(kShoulderYears, length / 5);
  const auto from_start = static_cast<double>(made.value - recipe.earliest.value) + 0.5;
  const auto to_end = static_cast<double>(recipe.latest.value - made.value) + 0.5;
  return std::min({1.0, from_start / shoulder, to_end / shoulder});
}

std::optional<Choice> draw_vessel(const Supply& supply, std::span<const Recipe> recipes, Random& random) {
  const auto years = static_cast<std::uint32_t>(supply.to.value - supply.from.value + 1);
  for (int attempt = 0; attempt < 1000; ++attempt) {
    const Year broken{supply.from.value + random.below(years)};
    const Year made{broken.value - draw_use_life(random)};
    const Recipe* recipe = choose(supply, recipes, made, random);
    if (recipe == nullptr) continue;
    return Choice{recipe,
                  {supply.context, recipe->fabric, recipe->form, recipe->decoration, made, broken, supply.origin}};
  }
  return std::nullopt;
}

}  // namespace sherd::demo
