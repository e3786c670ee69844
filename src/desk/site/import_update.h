#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "desk/frame/session.h"
#include "desk/site/import_table.h"
#include "exchange/headings.h"
#include "exchange/names.h"
#include "exchange/stored_rows.h"
#include "model/kind_spec.h"
#include "model/table.h"

namespace sherd::desk {

/// Matches the rows of a table with those of the store by their key, and keeps what differs.
class UpdateMatcher {
 public:
  /// Errors: `no_key` where the kind has none; those of the store.
  static Result<std::unique_ptr<UpdateMatcher>> make(const Session& session, Kind kind);

  /// As they are in the store.
  const exchange::StoredRows& stored() const { return stored_; }
  /// The rows that the store does not have; the others are compared in the columns that the table has; a blank cell
  /// there is a difference like any other. Columns kept from an earlier file stay unless this one has them too. `plan`:
  /// of the table.
  Result<Table> match(const Table& rows, const exchange::HeadingPlan& plan);
  Result<void> apply(Writing& writing) const;

  std::int64_t rows_new() const { return new_; }
  std::int64_t rows_changed() const { return changed_; }
  std::int64_t rows_same() const { return same_; }
  const std::vector<ImportDifference>& differences() const { return differences_; }

 private:
  UpdateMatcher(const Session& session, Table stored)
      : spec_(kind_spec(stored.kind())), site_(session.site.code), stored_(std::move(stored)) {}
  bool compare(const Table& rows, std::size_t row, std::size_t stored, const exchange::HeadingPlan& plan);

  const KindSpec& spec_;
  std::string site_;
  exchange::StoredRows stored_;
  std::vector<Edit> edits_;
  std::vector<ImportDifference> differences_;
  std::int64_t new_ = 0, changed_ = 0, same_ = 0;
};

/// The keys in a file, one a line.
Result<exchange::NameSet> keys_in_file(const std::string& file, Environment& environment);

/// The loops that the relations of the record now run in, a sentence each; within a change, as it leaves them.
Result<std::vector<std::string>> loop_warnings(const Session& session);

}  // namespace sherd::desk
