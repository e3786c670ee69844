#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/result.h"
#include "desk/assemblage/compare_request.h"
#include "desk/assemblage/line_fields.h"

namespace sherd::desk {

/// Which lines of a store are compared: the request's conditions, and those that leave out the doubtful and the
/// unchecked.
struct Selection {
  std::vector<std::string> where;   ///< all of them, as text
  std::vector<Condition> asked;     ///< the request's own
  std::vector<Condition> doubtful;  ///< that leave out what is doubtful
  std::vector<Condition> unchecked;
  /// What must have been read to choose lines.
  std::vector<std::string> fields() const;
};
/// `by`: the fields compared, which say whose certainty counts. Errors: `bad_where`, `bad_choice`.
Result<Selection> selection_of(const CompareRequest& request, const std::vector<std::string>& by);

struct SelectedLines {
  std::vector<std::uint32_t> lines;
  std::int64_t doubtful = 0, unchecked = 0, blank = 0;  ///< left out; a line is counted once, in this order
};
/// Lines that meet all of it and have a value in every field of `by`.
SelectedLines selected_lines(const LineFields& fields, const Selection& selection, const std::vector<std::string>& by);

}  // namespace sherd::desk
