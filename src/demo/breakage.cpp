#include "demo/breakage.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

namespace sherd::demo {

namespace {

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::ranges::find(words, word) != words.end();
}

/// How much of a vessel broken where it lay stays in the context.
double share_kept(const Context& context, Random& random) {
  const double u = random.uniform();
  switch (context.deposit.value_or(Deposit::unknown)) {
    case Deposit::dump:
      return context.integrity == Integrity::sealed ? 0.15 + 0.80 * u : 0.12 + 0.80 * u * u;
    case Deposit::silting:
      return 0.10 + 0.65 * u * u;
    default:
      return 0.06 + 0.45 * u * u;
  }
}

std::int64_t sherds_kept(const Choice& choice, const Context& context, Random& random) {
  if (choice.vessel.origin == Origin::intrusive) return 1;
  if (choice.vessel.origin == Origin::residual) {
    const double u = random.uniform();
    return u < 0.68 ? 1 : u < 0.90 ? 2 : 3;
  }
  return std::max(std::int64_t{1}, std::lround(choice.recipe->pieces * share_kept(context, random)));
}

std::string draw_part(const Recipe& recipe, Random& random) {
  const double u = random.uniform();
  if (u < 0.17) return "rim";
  if (u < 0.28) return "base";
  const bool handled =
      is_one_of(recipe.form, {"jug", "flagon", "amphora", "cup", "mug", "teapot", "chamber-pot", "pipkin", "bottle"});
  if (handled && u < 0.34) return "handle";
  const bool spouted = is_one_of(recipe.form, {"jug", "teapot", "mortarium"});
  if (spouted && u < 0.36) return "spout";
  return "body";
}

std::int64_t draw_percent(Random& random) {
  return 3 + std::min(std::int64_t{30}, static_cast<std::int64_t>(-7.0 * std::log(1.0 - random.uniform())));
}

std::int64_t to_ten(double mm) { return 10 * std::lround(mm / 10.0); }

std::string draw_condition(const Choice& choice, const Context& context, Random& random) {
  const double u = random.uniform();
  if (choice.vessel.origin != Origin::own || context.deposit == Deposit::mixed)
    return u < 0.50 ? "abraded" : u < 0.78 ? "heavily abraded" : u < 0.90 ? "worn" : "fresh";
  if (context.group == "Fire" && u < 0.60) return "burnt";
  if (is_one_of(choice.recipe->form, {"cooking-pot", "pipkin"}) && u < 0.45) return "sooted";
  if (choice.recipe->form == "jug" && u < 0.06) return "lime-coated";
  if (context.deposit == Deposit::use) return u < 0.50 ? "worn" : u < 0.80 ? "abraded" : "fresh";
  if (context.deposit == Deposit::silting) return u < 0.45 ? "fresh" : u < 0.80 ? "abraded" : "worn";
  return u < 0.72 ? "fresh" : "abraded";
}

std::optional<Judgement> draw_judgement(const Choice& choice, const Context& context, Year began, Random& random) {
  if (choice.vessel.origin == Origin::intrusive) return Judgement::intrusive;
  const bool far_older = choice.vessel.broken.value + 100 < began.value && context.deposit != Deposit::mixed;
  if (choice.vessel.origin == Origin::residual && far_older && random.uniform() < 0.6) return Judgement::residual;
  return std::nullopt;
}

Certainty draw_certainty(std::int64_t sherds, Random& random) {
  if (sherds > 2) return Certainty::sure;
  const double u = random.uniform();
  return u < 0.94 ? Certainty::sure : u < 0.98 ? Certainty::probable : Certainty::possible;
}

/// Rim to base in one piece: the bases join the rims.
void make_profile(Remains& remains, Random& random) {
  PartPile profile = remains.parts["rim"];
  profile.count += remains.parts["base"].count;
  profile.mg += remains.parts["base"].mg;
  profile.percent = std::min(std::int64_t{95}, profile.percent + 15 + random.below(30));
  remains.parts.erase("rim");
  remains.parts.erase("base");
  remains.parts["profile"] = profile;
}

}  // namespace

std::int64_t draw_weight_mg(double mean_g, Random& random) {
  const double g = mean_g * std::exp(kWeightSpread * random.normal() - kWeightSpread * kWeightSpread / 2);
  return 100 * std::max(std::int64_t{3}, std::lround(g * 10));
}

std::int64_t Remains::sherds() const {
  std::int64_t n = 0;
  for (const auto& [part, pile] : parts) n += pile.count;
  return n;
}

Remains break_vessel(const Choice& choice, const Context& context, Year began, Random& random) {
  Remains out;
  const Recipe& recipe = *choice.recipe;
  out.recipe = &recipe;
  const std::int64_t n = sherds_kept(choice, context, random);
  const double mean_g = recipe.sherd_g * (choice.vessel.origin == Origin::own ? 1.0 : 0.6);
  for (std::int64_t i = 0; i < n; ++i) {
    const std::string part = draw_part(recipe, random);
    PartPile& pile = out.parts[part];
    ++pile.count;
    pile.mg += draw_weight_mg(part == "base" ? 1.6 * mean_g : mean_g, random);
    if (part == "rim" || part == "base") pile.percent = std::min(std::int64_t{95}, pile.percent + draw_percent(random));
  }
  const auto steps = static_cast<std::uint32_t>((recipe.rim_to_mm - recipe.rim_from_mm) / 10 + 1);
  out.rim_mm = recipe.rim_from_mm + 10 * random.below(steps);
  out.base_mm = std::max(std::int64_t{30}, to_ten(0.5 * static_cast<double>(out.rim_mm)));
  out.condition = draw_condition(choice, context, random);
  out.judged = draw_judgement(choice, context, began, random);
  out.fabric_certainty = draw_certainty(n, random);
  out.form_certainty = draw_certainty(n, random);
  const bool shows = random.uniform() < 0.6;
  const bool known = random.uniform() < 0.25;
  const bool has_rim = out.parts.contains("rim");
  out.shows_decoration = has_rim || shows;
  out.knows_form = known || n > 10;
  const bool whole = n >= 6 && has_rim && out.parts.contains("base") && context.integrity == Integrity::sealed;
  if (whole && random.uniform() < 0.4) make_profile(out, random);
  return out;
}

}  // namespace sherd::demo
