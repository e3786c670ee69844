#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/session.h"
#include "model/dated_row.h"

namespace sherd::desk {

/// Something seen on a piece, as the rows write it.
struct SeenValue {
  std::string key, value;
  bool known = true;  ///< false: no row has it, such as a mark that is to be read, or a region
  std::string note;   ///< what was taken otherwise than it was said; "" where nothing was
};

/// What a store says of dates, beside the shipped rows.
struct StoreEvidence {
  std::vector<Evidence> evidence;
  std::vector<WareDate> dates;
  std::vector<Fabric> fabrics;
  std::vector<Form> forms;
  std::map<Kind, std::vector<std::string>> uids;  ///< of the rows of each kind, where they were read from a store
};

/// Where a row of a store stands: its kind, and its place in StoreEvidence.
struct RowOrigin {
  Kind kind{};
  std::size_t index = 0;
};

/// The rows that date a piece: the shipped ones and a store's own.
class KnownEvidence {
 public:
  /// A store row with the keys and the reference of a shipped row takes its place; of a retired one nothing is left but
  /// its place in `retired`. The store's `dates`, and the ranges that its fabrics and forms carry, become rows of
  /// nature `span`; a fabric's or form's own range only where no row of the store names that fabric or form alone.
  KnownEvidence(const std::vector<DatedRow>& shipped, const StoreEvidence& own);

  /// Shipped rows first, in the order of the tables.
  const std::vector<DatedRow>& rows() const { return rows_; }
  /// Retired rows of the store, and the shipped rows that they hide.
  const std::vector<DatedRow>& retired() const { return retired_; }
  /// nullptr for a shipped row.
  const RowOrigin* origin(const DatedRow& row) const;
  std::size_t replaced() const { return replaced_; }  ///< shipped rows in whose place a store row stands

  /// What was typed, as the rows write it: other names and spellings are known, a degree sign or "/64" is left out, and
  /// a value that belongs to a neighbouring key (a ware given as fabric, a decoration given as technique) is taken to
  /// it. A mark, a legend, a firing and a region may be anything. Errors: `unknown_key`, `blank_value`, `unknown_value`
  /// (with "did you mean"), `not_a_number`.
  Result<SeenValue> normalise(std::string_view key, std::string_view text) const;

  /// What `value` is a kind of, nearest first: rows of these hold for it, too. A fabric is a kind of the one that it is
  /// a variant of.
  std::vector<std::string> broader(std::string_view key, std::string_view value) const;
  /// Every value of a key, sorted.
  std::vector<std::string> values(std::string_view key) const;

  /// Site and newest change of the store; empty where there is none.
  std::vector<std::string> inputs;

 private:
  using Spellings = std::map<std::string, std::string, std::less<>>;  ///< by folded text

  void learn(std::string_view key, const std::string& value);
  void take_store(const StoreEvidence& own);
  void take_own_ranges(const StoreEvidence& own);
  void put(Evidence row, RowOrigin from);
  Evidence respelt(Evidence row) const;
  const std::string* find(std::string_view key, std::string_view text) const;
  Result<SeenValue> unknown(std::string_view key, std::string_view text) const;

  std::vector<DatedRow> rows_, retired_;
  std::size_t replaced_ = 0;
  std::map<std::string, std::size_t> place_;  ///< of a row in rows_, by its keys and reference; while they are made
  std::map<std::string, RowOrigin> origin_;   ///< likewise
  std::map<std::string, Spellings, std::less<>> spellings_;
  std::map<std::string, std::string, std::less<>> variant_of_;
};

/// The evidence, dates, fabrics and forms of a site.
Result<StoreEvidence> store_evidence(const Session& session);
Result<KnownEvidence> known_evidence(const Session& session, const Environment& environment);
/// `store` empty: what is shipped. `change` of the rows is not filled in here: see `evidence_history`.
Result<KnownEvidence> known_evidence(Environment& environment, const std::string& store, const std::string& site);

/// "ware", "fabric" ... in the order in which a row is read; all but the reference.
const std::vector<std::string>& evidence_keys();

}  // namespace sherd::desk
