#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "store/dialect.h"
#include "store/versioned.h"

/// What merging asks of the rows of a store. Members throw what the database throws.
namespace sherd::store {

/// What a copy knows of the store that it is merged into: the changes that it holds itself. Kept through one merge;
/// each replayed change looks only at what has come since the one before it.
class Knowledge {
 public:
  explicit Knowledge(std::set<std::string> uids) : uids_(std::move(uids)) {}

  /// To be called with a change open.
  void refresh(Dialect& dialect);
  bool known(std::int64_t seq) const;
  /// The copy in which a change was made; "" where in this store.
  const std::string& made_in(std::int64_t seq) const;
  /// The first change that the copy does not hold; above all of them where there is none.
  std::int64_t first_unknown() const { return first_unknown_; }

  /// Whether whoever made `later` could know of `earlier`.
  bool follows(std::int64_t later, std::int64_t earlier) const;
  /// uids of rows that have, or had when another copy ended a version of them, this key by a change that the copy does
  /// not know; they may have changed since.
  const std::set<std::string>& rows_with_key(Dialect& dialect, const Versioned& table, long long site,
                                             const std::string& key);
  /// Sites in which something was replayed.
  std::set<long long>& sites() { return sites_; }

 private:
  struct Keys {
    std::int64_t up_to = 0;
    std::unordered_map<std::string, std::set<std::string>> rows;
  };
  struct Origin {
    std::string copy;
    std::int64_t base = 0;
  };

  std::set<std::string> uids_;
  std::vector<bool> known_;  ///< by seq, from 1
  std::int64_t first_unknown_ = 1;
  std::map<std::int64_t, Origin> origins_;
  std::map<std::pair<std::string, long long>, Keys> keys_;
  std::set<long long> sites_;
};

/// All versions of one row, oldest first.
class RowHistory {
 public:
  RowHistory(Dialect& dialect, const Versioned& table, long long site, const std::string& uid);

  bool ever() const { return versions_.rows() > 0; }
  bool current() const { return ever() && ended(versions_.rows() - 1) == Column::kNull; }
  std::int64_t first_begun() const { return versions_.find("from_change")->integer(0); }
  std::int64_t last_begun() const { return versions_.find("from_change")->integer(versions_.rows() - 1); }
  std::int64_t last_ended() const { return ended(versions_.rows() - 1); }
  /// The newest version, as one row with its uid; blank where there is none.
  Table newest() const;

  /// The change that gave a field the value that it has, 0 where it was never given one. Past what one copy, unknown
  /// to `knowledge`, set and set back again.
  std::int64_t head(const StoredColumn& column, const Knowledge* knowledge) const;
  /// The same of its being there, or gone.
  std::int64_t presence_head(const Knowledge* knowledge) const;
  /// Whether a change made in that copy ("": here) has ever removed it.
  bool was_removed_in(const std::string& copy, const Knowledge& knowledge) const;

 private:
  /// There is no version that goes on from this one.
  bool goes(std::size_t row) const {
    return ended(row) != Column::kNull && (row + 1 == versions_.rows() || begun(row + 1) != ended(row));
  }
  std::int64_t begun(std::size_t row) const { return versions_.find("from_change")->integer(row); }
  std::int64_t ended(std::size_t row) const { return versions_.find("to_change")->integer(row); }

  const Versioned* table_;
  std::string uid_;
  Table versions_;
};

/// The values of the key columns in one text; "" where all are blank or the kind has none.
std::string key_text(const Versioned& table, const Table& rows, std::size_t row);
/// The uid of a current row whose `column` has this value, and that is not `but`; "" where there is none.
std::string row_holding(Dialect& dialect, const Versioned& table, long long site, const StoredColumn& column,
                        const std::string& value, const std::string& but = {});
/// Whether the column holds keys of rows of `table`.
bool is_name_of(const StoredColumn& column, const Versioned& table);
/// Whether any row that is there names that key of `table`.
bool is_named(Dialect& dialect, const Versioned& table, long long site, const std::string& key);
/// The row that had this key (the first column) last in a version that has ended, and by which change; "" for none.
struct LastHolder {
  std::string uid;
  std::int64_t ended = 0;
};
LastHolder last_holder(Dialect& dialect, const Versioned& table, long long site, const std::string& key);
/// The one row `uid` of rows that are there, or none.
std::optional<Table> current_version(Dialect& dialect, const Versioned& table, long long site, const std::string& uid);

/// A row of merge_conflict.
struct ConflictRow {
  std::string uid;
  std::int64_t from_change = 0, site = 0;
  std::int64_t number = 0;
  std::string copy, device, table, row, column, sort, state, base, there, change, who, at;
};

constexpr std::string_view kOpen = "open";        ///< to be settled
constexpr std::string_view kAgreed = "agreed";    ///< both sides came to the same value, each by itself
constexpr std::string_view kWaiting = "waiting";  ///< goes with its row, which is gone
constexpr std::string_view kSettled = "settled";  ///< not to be raised again

/// `base` of a conflict of sort gone: the copy brought the row back, whether or not it altered it.
constexpr const char* kBack = "back";

std::string conflict_uid(const std::string& row, const std::string& column, const std::string& copy);
Table conflict_cells(const ConflictRow& conflict);
/// Current ones, by `where`, which goes on from "to_change is null".
std::vector<ConflictRow> load_conflicts(Dialect& dialect, const std::string& where,
                                        std::span<const std::string> texts = {});
std::vector<ConflictRow> conflicts_of_row(Dialect& dialect, long long site, const std::string& row);

}  // namespace sherd::store
