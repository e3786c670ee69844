#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "desk/recording/apply_edits.h"
#include "desk/recording/record_rows.h"
#include "exchange/problem.h"

namespace sherd::desk {

/// Carries out the steps of one change within it, in their order, as far as each can be done; what cannot goes into
/// the response. The caller commits, or leaves the change where there are problems or conflicts.
class EditSteps {
 public:
  /// `overwrite`: a step that says no `seen` takes any value for seen.
  EditSteps(Session& session, Writing& writing, bool overwrite, EditsResponse& response);

  /// Errors: those of the store.
  Result<void> run(const std::vector<EditStep>& steps);

  struct Touched {
    std::string kind, uid;  ///< kind "sheet": the project sheet
    bool removed = false;
  };
  /// Rows of the steps, in the order in which they were met.
  const std::vector<Touched>& touched() const { return touched_; }
  /// Whether anything was written.
  bool wrote() const { return wrote_; }

 private:
  Result<void> add(const EditStep& step);
  Result<void> set(const EditStep& step);
  Result<void> remove(const EditStep& step);
  Result<void> set_sheet(const EditStep& step);
  Result<void> set_cell(const EditStep& step, Kind kind, const FoundRow& row);

  /// Reads the values of a new row into `row`; false where there are problems.
  Result<bool> fill(const EditStep& step, TypedRow& row);
  Result<bool> check_new(TypedRow& row);
  Result<void> insert(const EditStep& step, TypedRow& row);
  /// False: the row has another value than the one seen.
  Result<bool> as_seen(const EditStep& step, Kind kind, const FoundRow& row, const std::string& now,
                       const std::string& value);
  Result<bool> key_may_change(const FoundRow& row, const TypedRow& after, const ColumnSpec& column);
  Result<std::optional<FoundRow>> find(const EditStep& step, Kind kind);
  Result<std::optional<TypedReading>> read(const ColumnSpec& column, const std::string& typed);
  Result<bool> is_known(const ColumnSpec& column, const std::string& typed, TypedReading& reading);
  std::optional<Kind> kind_of(const EditStep& step);
  const ColumnSpec* column_of(const std::vector<ColumnSpec>& columns, const std::string& name);
  Result<void> remove_namers(const EditStep& step, Kind kind, const std::string& key);

  void problem(std::string_view column, std::string_view text, const Error& error);
  void problem(const exchange::Problem& broken);
  void note(std::string_view column, std::string_view text, std::string message);
  bool touch(const std::string& kind, const std::string& uid, bool removed);

  Session& session_;
  Writing& writing_;
  bool overwrite_;
  EditsResponse& response_;
  RecordRows rows_;
  notation::DateStyle style_;
  std::int64_t at_ = 0;                                                      ///< the step
  std::map<std::string, std::optional<std::pair<Kind, std::string>>> made_;  ///< by `as`; nothing: it was refused
  std::vector<Touched> touched_;
  std::int64_t next_record_ = 0, records_left_ = 0;
  std::int64_t records_wanted_ = 0;
  bool wrote_ = false;
};

}  // namespace sherd::desk
