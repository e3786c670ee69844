#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "desk/frame/session.h"
#include "desk/site/import_table.h"
#include "exchange/names.h"
#include "model/kind_spec.h"
#include "model/table.h"

namespace sherd::desk {

/// Matches the rows of a table with those of the store by their key, and keeps what differs.
class UpdateMatcher {
 public:
  /// `only`: a file of keys, one a line, or "". Errors: `no_key` where the kind has none; those of store and file.
  static Result<std::unique_ptr<UpdateMatcher>> make(const Session& session, Kind kind, const std::string& only,
                                                     Environment& environment);

  /// The rows that the store does not have; the others are compared in the columns that the table has; a blank cell
  /// there is a difference like any other.
  Result<Table> match(const Table& rows);
  Result<void> apply(Writing& writing) const;

  std::int64_t rows_new() const { return new_; }
  std::int64_t rows_changed() const { return changed_; }
  std::int64_t rows_same() const { return same_; }
  std::int64_t left_out() const { return left_out_; }
  const std::vector<ImportDifference>& differences() const { return differences_; }

 private:
  explicit UpdateMatcher(Kind kind) : spec_(kind_spec(kind)) {}
  bool compare(const Table& rows, std::size_t row, std::size_t stored, const std::string& key);

  const KindSpec& spec_;
  std::string site_;
  Table stored_;
  std::map<std::string, std::size_t> index_;
  std::unique_ptr<exchange::NameSet> only_;
  std::vector<Edit> edits_;
  std::vector<ImportDifference> differences_;
  std::int64_t new_ = 0, changed_ = 0, same_ = 0, left_out_ = 0;
};

/// After an import of relations: the loops that the record now has, as warnings.
Result<void> warn_of_loops(const Session& session, Kind kind, bool imported, std::vector<std::string>& warnings);

}  // namespace sherd::desk
