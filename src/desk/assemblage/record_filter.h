#pragma once

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sherd::desk {

/// The lines behind a mark of a figure, as its `data-set`: the query of an address with a `where` for each condition
/// that the lines meet, as in "where=context%3D102&where=fabric%3Dgrey-1", and `context` where the mark is one.
/// Without fields, as of a plain table, everything is "".
class RecordFilter {
 public:
  RecordFilter() = default;
  RecordFilter(std::vector<std::string> where, std::string row_field, std::string column_field)
      : where_(std::move(where)), row_field_(std::move(row_field)), column_field_(std::move(column_field)) {}

  /// A label that stands for several values.
  void add_merged(std::string label, std::vector<std::string> values) { merged_[std::move(label)] = std::move(values); }
  /// A label that stands for no lines of the record.
  void add_foreign(std::string label) { foreign_.push_back(std::move(label)); }

  std::string row(std::string_view label) const;
  std::string column(std::string_view label) const;
  std::string cell(std::string_view row, std::string_view column) const;
  /// Any conditions beside those of all lines.
  std::string lines(const std::vector<std::string>& more) const;

 private:
  std::string condition(const std::string& field, std::string_view label) const;
  bool is_foreign(std::string_view label) const;

  std::vector<std::string> where_;
  std::string row_field_, column_field_;
  std::map<std::string, std::vector<std::string>, std::less<>> merged_;
  std::vector<std::string> foreign_;
};

}  // namespace sherd::desk
