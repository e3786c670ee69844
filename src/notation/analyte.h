#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "base/csv.h"
#include "base/result.h"
#include "model/analyte.h"

namespace sherd::notation {

/// Columns symbol, number, weight, oxide. Error `bad_table`.
Result<AtomicWeights> atomic_weights(const CsvRows& rows);

/// Columns element, advice, reason, overlaps, known. Error `bad_table`.
Result<std::vector<ElementAdviceRow>> element_advice(const CsvRows& rows);

/// "Fe", "Fe2O3", "FE2O3" (in capitals); nothing else. "CO" is cobalt in capitals: oxides of
/// hydrogen, carbon and nitrogen are not read.
std::optional<Formula> read_formula(std::string_view text, const AtomicWeights& weights);

/// A unit as people write it: ppm, mg/kg, ug/g; %, wt%, pct, percent, wt.-%.
std::optional<FractionUnit> read_unit(std::string_view text);

/// "Fe_ppm", "Al2O3 (wt%)", "Zr +/-", "Zr Err 2s", "Rb LOD", "Fe2O3(T)", "Sr unit": one formula, and no word that is
/// not understood. `Fe_err`, as the tables of the record have it, is one standard deviation; other words for an error
/// leave the multiple open unless they say it.
std::optional<AnalyteHeading> read_analyte_heading(std::string_view text, const AtomicWeights& weights);

/// A part of a heading alone, as where "+/-" stands to the right of "Fe".
std::optional<AnalyteHeading> read_part_heading(std::string_view text);

/// "Bal", "LE" and their like: what is left over, no element.
bool is_pseudo_element(std::string_view text);

}  // namespace sherd::notation
