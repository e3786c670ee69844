#include "desk/assemblage/record_filter.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::desk {

std::string RecordFilter::condition(const std::string& field, std::string_view label) const {
  const auto merged = merged_.find(label);
  return field + "=" + (merged == merged_.end() ? std::string(label) : join(merged->second, "||"));
}

bool RecordFilter::is_foreign(std::string_view label) const {
  return std::ranges::find(foreign_, label) != foreign_.end();
}

std::string RecordFilter::lines(const std::vector<std::string>& more) const {
  if (row_field_.empty()) return {};
  std::string out;
  for (const std::vector<std::string>* list : {&where_, &more}) {
    for (const std::string& one : *list) out += (out.empty() ? "where=" : "&where=") + percent_encoded(one);
  }
  return out;
}

std::string RecordFilter::row(std::string_view label) const {
  if (row_field_.empty() || is_foreign(label)) return {};
  return lines({condition(row_field_, label)}) + (row_field_ == "context" ? "&context=" + percent_encoded(label) : "");
}

std::string RecordFilter::column(std::string_view label) const {
  if (column_field_.empty()) return {};
  return lines({condition(column_field_, label)});
}

std::string RecordFilter::cell(std::string_view row, std::string_view column) const {
  if (row_field_.empty() || is_foreign(row)) return {};
  return lines({condition(row_field_, row), condition(column_field_, column)});
}

}  // namespace sherd::desk
