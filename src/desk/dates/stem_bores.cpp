#include "desk/dates/stem_bores.h"

#include <algorithm>
#include <vector>

#include "base/numbers.h"
#include "base/text.h"
#include "methods/dating/stem_bore.h"

namespace sherd::desk {

namespace {

Result<std::vector<dating::BoreCount>> counts_of(const std::string& text) {
  std::vector<dating::BoreCount> out;
  for (const std::string_view part : split(text, ',')) {
    const auto sides = split(part, '=');
    const auto bore = parse_scaled(trim(sides.front()), 0);
    const auto stems = sides.size() == 2 ? parse_scaled(trim(sides.back()), 0) : bore;
    // parse_scaled rounds; a bore between two sizes belongs to neither.
    const bool whole = part.find_first_of(".eE") == std::string_view::npos;
    if (sides.size() != 2 || !bore || !stems || !whole) {
      return fail(ErrorKind::usage, "unreadable_counts",
                  "\"" + std::string(trim(part)) + "\" is not a bore and a number of stems",
                  "write whole numbers, such as 5=12,6=30,7=8: 12 stems of 5/64 inch");
    }
    out.push_back({*bore, *stems});
  }
  return out;
}

}  // namespace

Result<StemBoresResponse> stem_bores(const StemBoresRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const auto counts, counts_of(request.counts));
  const dating::StemBoreSettings settings{.resamples = request.resamples.value_or(1000),
                                          .seed = static_cast<std::uint64_t>(request.seed.value_or(1))};
  StemBoresResponse response;
  SHERD_TRY(response.bores, dating::date_stem_bores(counts, settings));
  const auto& formulas = response.bores.formulas;
  if (std::ranges::none_of(formulas, [](const dating::BoreFormula& formula) { return formula.year.has_value(); })) {
    response.errors.push_back(
        {.code = "outside_validity",
         .message = "no formula holds for a mean bore of " + format_fixed(response.bores.mean, 2) + "/64 inch",
         .where = {},
         .hint = "the periods of the table are given; other finds must date the context"});
  }
  for (const dating::BoreFormula& formula : formulas) {
    if (!formula.caution.empty()) response.warnings.push_back(formula.name + ": " + formula.caution);
  }
  response.warnings.insert(response.warnings.end(), response.bores.cautions.begin(), response.bores.cautions.end());
  response.warnings.emplace_back("for English pipes; formulas and parts of the table are from memory, each says which");
  response.provenance.version = environment.version;
  response.provenance.seed = settings.seed;
  response.provenance.settings["resamples"] = std::to_string(settings.resamples);
  return response;
}

}  // namespace sherd::desk
