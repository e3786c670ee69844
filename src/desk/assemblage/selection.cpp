#include "desk/assemblage/selection.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "base/text.h"

namespace sherd::desk {

namespace {

Result<bool> left_out(const char* option, const std::string& word) {
  if (word.empty() || word == "in") return false;
  if (word == "out") return true;
  return fail(ErrorKind::usage, "bad_choice", "--" + std::string(option) + " does not know \"" + word + "\"",
              "choose in or out");
}

bool is_of(const std::string& field, std::string_view base) {
  return field == base || (field.starts_with(base) && field[base.size()] == '.');
}

/// Of lines that meet all of `conditions` the others, counted.
std::vector<std::uint32_t> narrowed(const LineFields& fields, const std::vector<std::uint32_t>& lines,
                                    const std::vector<Condition>& conditions, std::int64_t& without) {
  if (conditions.empty()) return lines;
  const std::vector<std::uint32_t> meeting = chosen_lines(fields, conditions);
  std::vector<std::uint32_t> out;
  std::ranges::set_intersection(lines, meeting, std::back_inserter(out));
  without = static_cast<std::int64_t>(lines.size() - out.size());
  return out;
}

}  // namespace

std::vector<std::string> Selection::fields() const {
  std::vector<std::string> out;
  for (const auto* list : {&asked, &doubtful, &unchecked}) {
    for (const Condition& condition : *list) out.push_back(condition.field);
  }
  return out;
}

Result<Selection> selection_of(const CompareRequest& request, const std::vector<std::string>& by) {
  Selection out;
  SHERD_TRY(out.asked, conditions_of(request.where));
  SHERD_TRY(const bool no_doubtful, left_out("doubtful", request.doubtful));
  SHERD_TRY(const bool no_unchecked, left_out("unchecked", request.unchecked));
  out.where = request.where;
  constexpr std::array<std::string_view, 3> kCodes{"fabric", "form", "decoration"};
  for (const std::string_view code : kCodes) {
    if (!no_doubtful || std::ranges::none_of(by, [&](const std::string& field) { return is_of(field, code); }))
      continue;
    out.doubtful.push_back({std::string(code) + "_certainty", "probable||possible", true});
  }
  if (no_unchecked) out.unchecked.push_back({"checked_by", "", true});
  for (const auto* list : {&out.doubtful, &out.unchecked}) {
    for (const Condition& condition : *list) out.where.push_back(condition.field + "!=" + condition.value);
  }
  return out;
}

SelectedLines selected_lines(const LineFields& fields, const Selection& selection, const std::vector<std::string>& by) {
  SelectedLines out;
  std::vector<std::uint32_t> lines = chosen_lines(fields, selection.asked);
  lines = narrowed(fields, lines, selection.doubtful, out.doubtful);
  lines = narrowed(fields, lines, selection.unchecked, out.unchecked);
  for (const std::uint32_t line : lines) {
    const bool whole =
        std::ranges::none_of(by, [&](const std::string& field) { return fields.column(field)->is_null(line); });
    whole ? out.lines.push_back(line) : static_cast<void>(++out.blank);
  }
  return out;
}

}  // namespace sherd::desk
