#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "model/table.h"

/// All that a store holds of a site, with its history: what an archive is written from, and read back into.
namespace sherd {

struct Change;

/// A change that came from a copy: which one, and the newest change of this store that the copy knew.
struct MergedFrom {
  std::int64_t change = 0;
  std::string copy;
  std::int64_t base = 0;
};

/// One table with every version of its rows: columns uid, from_change, to_change (null where current), then those of
/// the table under their canonical names, in the order of uid and from_change.
struct TableVersions {
  std::string table;
  Table rows;
};

/// What a store is made of once more. Each function is asked until it gives nothing.
struct Filling {
  std::string site;
  std::int64_t next_record = 1;  ///< the number that the next line without one gets
  std::vector<Change> changes;   ///< numbered from 1 without a gap
  std::vector<MergedFrom> merged;
  std::function<Result<std::optional<TableVersions>>()> next_table;
  std::function<Result<std::optional<std::string>>()> next_bytes;  ///< of documents
};

class Whole {
 public:
  virtual ~Whole() = default;
  /// The tables whose rows are versions, in their order: the record's, then sheets, documents and what else is kept.
  virtual std::vector<std::string> tables() const = 0;
  /// No rows, but the columns of `versions`; nothing where there is no such table.
  virtual std::optional<TableVersions> empty(const std::string& table) const = 0;
  /// Errors: `no_site`; `store_error` for a table that is not there.
  virtual Result<TableVersions> versions(const std::string& site, const std::string& table) = 0;
  /// The bytes of a document by hash and size, also of one that another has replaced. Error `damaged_store`.
  virtual Result<std::string> bytes(const std::string& sha256, std::int64_t size) = 0;
  virtual Result<std::int64_t> next_record(const std::string& site) = 0;
  virtual Result<std::vector<MergedFrom>> merged() = 0;
  /// Fills this store, in which nothing was ever written, as one: all of it or nothing. Errors: `store_in_use` where it
  /// holds something; `not_text`; `bad_history` where a version belongs to no change.
  virtual Result<void> fill(const Filling& filling) = 0;
};

}  // namespace sherd
