#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "methods/stratigraphy/marginals.h"
#include "methods/stratigraphy/site_model.h"
#include "methods/stratigraphy/summary.h"

namespace sherd::stratigraphy {

/// What a unit's pottery says by itself.
struct UnitEvidence {
  DateGroups groups;
  Table table;                   ///< with its limits
  YearChances completed, began;  ///< without limits and sequence
};
UnitEvidence unit_evidence(const SiteUnit& unit, const SiteModel& site, const SequenceSettings& settings);

/// False where its limits leave the unit no state.
bool possible(const Table& table);

/// The results for all contexts of a unit, in their order. `states`: the chances of its states in the sequence.
std::vector<ContextDate> context_dates(const SiteUnit& unit, const UnitEvidence& evidence, const Chances& states,
                                       const SiteModel& site, const SequenceInput& input,
                                       const SequenceSettings& settings);

/// Of a context that is not modelled.
ContextDate not_modelled(const SequenceContext& context);

/// Adds `printed`, `or_later` and the flags.
void judge(ContextDate& date, const YearChances& completed, const std::vector<VesselKind>& kinds, Years years,
           const SequenceSettings& settings);

}  // namespace sherd::stratigraphy
