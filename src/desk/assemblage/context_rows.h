#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/line_fields.h"
#include "desk/assemblage/selection.h"
#include "desk/dates/dated_record.h"
#include "desk/frame/session.h"
#include "methods/quantify/natural_order.h"
#include "model/year.h"

namespace sherd::desk {

/// Lines of a store by a field of theirs, as `compare` chooses them.
struct LineRows {
  Session session;
  std::string field;
  LineFields fields;
  std::vector<std::uint32_t> lines;  ///< chosen
  std::vector<std::string> labels;   ///< in natural order
  std::map<std::string, std::size_t, std::less<>> place;
  /// The row of a chosen line.
  std::size_t row_of(std::uint32_t line) const;
};
/// `field`: unless the request names one. Fills what `input` says of itself. `always`: columns to be read beside, and
/// `more` fields likewise.
/// Errors: `bad_choice`, `not_for_this`, those of the store.
Result<LineRows> line_rows(const CompareRequest& request, Environment& environment, const char* field,
                           const std::vector<std::string>& always, CompareInput& input,
                           const std::vector<std::string>& more = {});

/// The same where rows are contexts or what contexts lie in, with the whole record dated. Error `bad_choice` for
/// another field.
struct ContextRows {
  LineRows rows;
  Record record;
  DatedRecord dated;
  std::set<std::string, std::less<>> records;                      ///< of chosen lines
  std::map<std::string, std::size_t, std::less<>> row_of_context;  ///< of contexts with chosen lines
};
Result<std::unique_ptr<ContextRows>> context_rows(const CompareRequest& request, Environment& environment,
                                                  const char* field, CompareInput& input, Progress& progress);

/// Where the years of rows come from.
enum class YearSource { own, sequence, spot, phase };
/// Error `bad_choice`.
Result<YearSource> year_source(const std::string& word);
/// The hull of the ranges of each row's contexts; both ends, or nothing. Mixed deposits give none.
Result<std::vector<std::optional<YearRange>>> years_of_rows(const ContextRows& contexts, YearSource source,
                                                            Environment& environment);

}  // namespace sherd::desk
