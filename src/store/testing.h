#pragma once

#include <gtest/gtest.h>
#include <stdlib.h>

#include <filesystem>
#include <initializer_list>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "model/kind_spec.h"
#include "model/record.h"
#include "model/rows.h"
#include "store/open.h"

/// What the tests of the store share.
namespace sherd::store {

/// A folder that goes when the test ends.
class TestFolder {
 public:
  TestFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "sherds-XXXXXX").string();
    path_ = ::mkdtemp(name.data());
  }
  ~TestFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  TestFolder(const TestFolder&) = delete;
  TestFolder& operator=(const TestFolder&) = delete;

  std::string file(std::string_view name) const { return (path_ / name).string(); }
  std::vector<std::string> names() const {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(path_)) names.push_back(entry.path().filename());
    return names;
  }

 private:
  std::filesystem::path path_;
};

/// The value of a Result, or a failed test that says the error.
template <class T>
T must(Result<T> result) {
  if (!result) ADD_FAILURE() << result.error().code << ": " << result.error().message;
  if constexpr (!std::is_void_v<T>) return std::move(result).value();
}

template <class T>
std::string code_of(const Result<T>& result) {
  return result ? "none" : result.error().code;
}

inline ChangeNote note(std::string uid, std::string command = "test") {
  return {std::move(uid), "Ann", "2026-05-01T09:00:00Z", "test", std::move(command)};
}

/// A table of that kind from columns and rows of text, as the outside writes them (years astronomical).
inline Table table_of(Kind kind, const std::vector<std::string>& columns,
                      const std::vector<std::vector<std::string>>& rows) {
  Table table(kind);
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const CellType type = kind_column_type(kind, columns[i]);
    Column& column = table.add(columns[i], type);
    for (const auto& row : rows) {
      if (is_text(type)) {
        column.push_text(row[i]);
      } else {
        column.push_integer(row[i].empty() ? Column::kNull : std::stoll(row[i]));
      }
    }
  }
  return table;
}

/// Cells of some columns as cell_text gives them, row by row, parted by "|".
inline std::vector<std::string> cells(const Table& table) {
  std::vector<std::string> rows;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    std::string text;
    for (std::size_t i = 0; i < table.columns().size(); ++i) {
      text += (i == 0 ? "" : "|") + cell_text(table.columns()[i], row);
    }
    rows.push_back(text);
  }
  return rows;
}

inline std::vector<std::string> read(Store& store, Kind kind, std::vector<std::string> columns,
                                     const std::string& site = "SAL26", std::optional<std::int64_t> as_of = {}) {
  return cells(must(store.read({site, kind, std::move(columns), as_of})));
}

inline std::string uid_of(Store& store, Kind kind, std::size_t row, const std::string& site = "SAL26") {
  return read(store, kind, {"uid"}, site).at(row);
}

/// One change with one call in it.
template <class Work>
Change change(Store& store, const std::string& uid, Work work, const std::string& command = "test") {
  auto writing = must(store.begin(note(uid, command)));
  must(work(*writing));
  return must(writing->commit());
}

inline Change insert(Store& store, const std::string& uid, const Table& rows, const std::string& site = "SAL26",
                     const std::string& command = "test") {
  return change(store, uid, [&](Writing& writing) { return writing.insert(site, rows); }, command);
}

inline Change edit(Store& store, const std::string& uid, Kind kind, const Edit& wanted,
                   const std::string& command = "edit") {
  return change(store, uid, [&](Writing& writing) { return writing.edit("SAL26", kind, wanted); }, command);
}

inline Change put_site(Store& store, const std::string& code) {
  return change(store, "site " + code, [&](Writing& writing) { return writing.put_site(Site{code, "", {}, {}, {}}); });
}

}  // namespace sherd::store
