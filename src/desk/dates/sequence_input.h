#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "desk/dates/dated_record.h"
#include "methods/stratigraphy/sequence.h"

namespace sherd::desk {

/// What the dates of contexts rest on, and what of the record could not go in.
struct SequenceEvidence {
  stratigraphy::SequenceInput input;
  std::vector<std::string> left_out;  ///< one sentence each
};

/// Every context with its dated vessels, the relations and phases. Vessels are counted as for a spot range: the vessel
/// word (one), else the line's number, else its rims, else one a line. Lines without a date at both ends bring nothing.
/// What a line's condition says goes with its vessels: fresh where it joins over a fresh break, is more than a quarter
/// complete or is said to be fresh; abraded or heavily abraded where it is said so. `present`: no window goes beyond.
SequenceEvidence sequence_evidence(const Record& record, const DatedRecord& dated, Year present);

/// How worn a line's sherds are.
enum class Wear { unknown, fresh, abraded, heavily_abraded };
Wear wear_of(const RecordLine& line, bool joins_fresh, std::int64_t rims);

/// What of a context is not of its own time, by the chances of its date-groups.
struct ExpectedResidual {
  double count = 0, weight_g = 0, vessels = 0;
};
ExpectedResidual expected_residual(const stratigraphy::ContextDate& date,
                                   const std::map<std::string_view, const RecordLine*>& lines);

}  // namespace sherd::desk
