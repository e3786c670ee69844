#include "desk/chemistry/unit_words.h"

#include "base/numbers.h"
#include "base/text.h"
#include "notation/analyte.h"

namespace sherd::desk {

namespace {

/// The name of an analyte as it is kept: "fe2o3t" is refused, "Fe2O3T" is Fe2O3.
Result<std::string> analyte_name(std::string_view text, const AtomicWeights& weights, std::string_view option) {
  const auto heading = notation::read_analyte_heading(trim(text), weights);
  if (heading) return formula_text(heading->formula);
  return fail(ErrorKind::usage, "bad_choice",
              "--" + std::string(option) + ": \"" + std::string(trim(text)) + "\" is no element or oxide",
              "write it as Fe=percent or CaO=0.01");
}

}  // namespace

std::vector<std::string> listed_words(const std::vector<std::string>& values) {
  std::vector<std::string> out;
  for (const std::string& value : values) {
    for (const std::string_view part : split(value, ',')) {
      if (!trim(part).empty()) out.emplace_back(trim(part));
    }
  }
  return out;
}

Result<UnitsSaid> read_units(std::string_view text, const AtomicWeights& weights) {
  UnitsSaid out;
  for (const std::string& part : listed_words({std::string(text)})) {
    const auto equals = part.find('=');
    const std::string_view word = equals == std::string::npos ? part : std::string_view(part).substr(equals + 1);
    const auto unit = notation::read_unit(word);
    if (!unit)
      return fail(ErrorKind::usage, "bad_choice", "--units does not know \"" + std::string(word) + "\"",
                  "choose ppm or percent");
    if (equals == std::string::npos) {
      out.all = unit;
      continue;
    }
    SHERD_TRY(const std::string name, analyte_name(std::string_view(part).substr(0, equals), weights, "units"));
    out.of[name] = *unit;
  }
  return out;
}

Result<std::map<std::string, std::int64_t>> read_amounts(std::string_view text, const AtomicWeights& weights,
                                                         std::string_view option) {
  std::map<std::string, std::int64_t> out;
  for (const std::string& part : listed_words({std::string(text)})) {
    const auto equals = part.find('=');
    SHERD_TRY(const std::string name, analyte_name(std::string_view(part).substr(0, equals), weights, option));
    const auto amount =
        parse_scaled(equals == std::string::npos ? std::string_view{} : std::string_view(part).substr(equals + 1), 6);
    if (!amount || *amount <= 0)
      return fail(ErrorKind::usage, "bad_choice", "--" + std::string(option) + ": \"" + part + "\" is no amount",
                  "write it as CaO=0.01");
    out[name] = *amount;
  }
  return out;
}

}  // namespace sherd::desk
