#pragma once

#include <cstdint>
#include <map>
#include <string>

#include "base/random.h"
#include "demo/scenario.h"
#include "demo/vessels.h"
#include "model/record.h"

/// A vessel breaks, and part of it comes to lie in a context.
namespace sherd::demo {

/// Spread of sherd weights within a vessel: standard deviation of the logarithm. Chosen, no source.
constexpr double kWeightSpread = 0.7;

/// A sherd's weight: lognormal with the mean given (Aitchison & Brown 1957, from memory: mean exp(m + s^2/2)), to
/// 0.1 g, at least 0.3 g.
std::int64_t draw_weight_mg(double mean_g, Random& random);

/// The sherds of one part of a vessel.
struct PartPile {
  std::int64_t count = 0;
  std::int64_t mg = 0;
  std::int64_t percent = 0;  ///< of the circle, for rims and bases
};

/// What of a vessel is in a context, and how it looks.
struct Remains {
  const Recipe* recipe = nullptr;
  std::map<std::string, PartPile> parts;  ///< rim, profile, base, handle, spout, body
  std::int64_t rim_mm = 0, base_mm = 0;
  std::string condition;
  std::optional<Judgement> judged;
  Certainty fabric_certainty = Certainty::sure;
  Certainty form_certainty = Certainty::sure;
  bool shows_decoration = true;
  bool knows_form = true;  ///< also without a rim

  std::int64_t sherds() const;
};

/// `began` is when the context began to form: pottery a century older is told as residual, often though not always.
Remains break_vessel(const Choice& choice, const Context& context, Year began, Random& random);

}  // namespace sherd::demo
