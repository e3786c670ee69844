#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/column.h"

namespace sherd::exchange {

/// Where a canonical column comes from: one heading, or several joined by `separator`.
struct ColumnRule {
  std::vector<std::string> from;
  std::string separator = " ";
  std::string times;  ///< a decimal factor, "10" from cm to mm; empty for none
};

/// What a mapping file says. Every part may be empty.
struct Mapping {
  std::map<std::string, ColumnRule> columns;                        ///< canonical name -> rule
  std::map<std::string, std::vector<std::string>> only;             ///< heading -> the values whose rows are read
  std::map<std::string, std::map<std::string, std::string>> codes;  ///< canonical name -> code -> word
  std::map<std::string, std::string> blank_as;                      ///< canonical name -> what a blank means
  std::string date_style;
  std::string decimal;  ///< "," or "."; empty: detected
  std::string eve;      ///< "vessels" (0.14) or "percent" (14); empty: an EVE column is refused
};

/// Reads a mapping file of that kind. Error `bad_mapping` names the key, with "did you mean".
Result<Mapping> read_mapping(std::string_view json, Kind kind);
/// The file that read_mapping would take.
std::string mapping_text(const Mapping& mapping);

}  // namespace sherd::exchange
