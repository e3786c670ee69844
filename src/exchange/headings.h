#pragma once

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/result.h"
#include "exchange/mapping.h"
#include "model/kind_spec.h"

namespace sherd::exchange {

/// A canonical column and the file's columns that fill it.
struct PlannedColumn {
  const ColumnSpec* spec = nullptr;
  std::vector<std::size_t> sources;
  std::string separator = " ";
  std::string times;
  std::map<std::string, std::string> codes;
  std::optional<std::string> blank_as;
};

struct RowFilter {
  std::size_t source = 0;
  std::set<std::string, std::less<>> values;
};

/// How the headings of one file are understood.
struct HeadingPlan {
  std::vector<std::string> headings;  ///< as they stand in the file
  std::vector<PlannedColumn> columns;
  std::vector<std::pair<std::size_t, std::string>> extras;  ///< kept with the row under their own heading
  std::vector<RowFilter> only;
  std::vector<std::string> proposals;  ///< headings near to a column: said, never applied
  Mapping applied;                     ///< the mapping that would give this plan
};

/// Headings are matched by the mapping, then by canonical name, then by the exact list of synonyms in
/// data/synonyms.csv; capitals, spaces and signs do not count. Errors: `missing_column`, `column_twice`,
/// `no_heading` (the mapping names a heading that the file does not have), `eve_ambiguous`. `alters`: rows that are
/// there already are altered, so that of the columns those suffice by which they are told apart.
Result<HeadingPlan> plan_headings(Kind kind, const std::vector<std::string>& headings, const Mapping& mapping,
                                  bool alters = false);

/// "Weight (g)" -> "weight_g"
std::string folded_heading(std::string_view heading);

}  // namespace sherd::exchange
