#pragma once

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/report/sections.h"

namespace sherd::desk {

/// A field that prose may hold, its words in double braces: {{total sherds}}, {{sherds fabric=grey-1}}.
struct ReportField {
  std::string name;     ///< "total sherds"; "sherds fabric=CODE" where it takes one
  std::string says;     ///< what stands in its place
  std::string example;  ///< its value now, or the value for the first code
};

/// The live figures of one record.
class ReportFields {
 public:
  explicit ReportFields(const ReportInput& input);

  /// Errors: `unknown_field` and `unknown_code`, with "did you mean".
  Result<std::string> value(std::string_view field) const;
  /// Every field with its value now.
  std::vector<ReportField> all() const;

 private:
  struct One {
    std::string says, value;
  };
  struct OfCode {
    std::string says;
    std::map<std::string, std::string, std::less<>> values;
  };
  void add_totals(const ReportInput& input);
  void add_groups(const ReportInput& input, const ReportTally& tally, const std::string& of);
  void add_contexts(const ReportInput& input);

  std::map<std::string, One, std::less<>> ones_;
  std::map<std::string, OfCode, std::less<>> of_codes_;  ///< under "sherds fabric="
};

/// What stands between a pair of braces of a text, in its place.
struct BracedField {
  std::string_view words;
  std::size_t line = 1;
};
/// `text` with each {{...}} replaced by what `value` gives; braces after a backslash stand as they are. The first error
/// of `value`, its line at the end of the message; `open_field` where braces are not closed on their line or hold
/// nothing.
Result<std::string> fill_fields(std::string_view text,
                                const std::function<Result<std::string>(const BracedField&)>& value);

}  // namespace sherd::desk
