#pragma once

#include <gtest/gtest.h>

#include <cstdint>
#include <memory>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "desk/frame/memory_files.h"
#include "desk/frame/opened_store.h"
#include "model/kind_spec.h"
#include "model/table.h"
#include "store/store.h"

/// What the tests of the desk share.
namespace sherd::desk {

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

/// A desk with nothing real around it: files and one store in memory, the clock stopped, uids counted up.
class TestDesk {
 public:
  explicit TestDesk(Result<std::unique_ptr<Store>> store) : store_(must(std::move(store))), served_(store_.get()) {
    environment.version = "1.2.3";
    environment.user = "recorder";
    environment.now = [] { return std::string("2026-03-02T09:00:00Z"); };
    environment.new_uid = [this] {
      const std::string number = std::to_string(++uids_);
      return std::string(32 - number.size(), '0') + number;
    };
    environment.files = &files;
    const auto opened = [this](const std::string&) -> Result<std::unique_ptr<Store>> {
      return std::make_unique<OpenedStore>(*served_);
    };
    environment.create_store = opened;
    environment.open_store = opened;
    environment.restore_store = [](const std::string&, const std::string&) -> Result<void> {
      return fail("cannot_open", "a store in memory has no backups");
    };
  }
  TestDesk(const TestDesk&) = delete;
  TestDesk& operator=(const TestDesk&) = delete;

  Store& store() { return *store_; }
  /// From now on use cases meet this store, such as one that fails.
  void serve(Store& store) { served_ = &store; }

  /// Rows of a kind as the outside writes them, cells parted by "|"; all columns where none are named.
  std::vector<std::string> rows(Kind kind, std::vector<std::string> columns) {
    const Table table = must(store_->read({"SAL26", kind, std::move(columns), {}}));
    std::vector<std::string> out(table.rows());
    for (std::size_t row = 0; row < table.rows(); ++row) {
      for (std::size_t i = 0; i < table.columns().size(); ++i)
        out[row] += (i > 0 ? "|" : "") + cell_text(table.columns()[i], row);
    }
    return out;
  }
  /// All that the store holds, as text to compare.
  std::vector<std::string> everything() {
    std::vector<std::string> all;
    for (const KindSpec& spec : all_kinds()) {
      std::vector<std::string> columns = spec.column_names();
      columns.insert(columns.end(), {"uid", "extra"});
      for (const std::string& row : rows(spec.kind, columns)) all.push_back(spec.name + " " + row);
    }
    for (const Change& change : must(store_->changes(0))) all.push_back("change " + change.uid);
    for (const std::string& name : must(store_->document_names("SAL26", ""))) all.push_back("document " + name);
    return all;
  }

  MemoryFiles files;
  Environment environment;
  NoProgress progress;

 private:
  std::unique_ptr<Store> store_;
  Store* served_;
  std::int64_t uids_ = 0;
};

}  // namespace sherd::desk
