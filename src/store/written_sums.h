#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/siphash.h"
#include "store/raw.h"

namespace sherd {
class Column;
}

namespace sherd::store {

struct NewVersions;

/// Of one table: the sums of the hashes of the versions that a change began and of those that it ended.
struct TableSums {
  Bits128 wrote, ended;
};

/// By table.
using ChangeSums = std::map<std::string, TableSums, std::less<>>;

/// "contexts WROTE ENDED" a line, in the order of the tables' names, the hashes as 32 hexadecimal digits. Kept in
/// stores: do not change.
std::string sums_text(const ChangeSums& sums);

/// Hashes versions of one table, whatever the order of the columns. Hashes are kept in stores: do not change.
class VersionHash {
 public:
  /// Names as the table has them, without uid, site, from_change and to_change.
  VersionHash(std::string_view table, const std::vector<std::string>& columns);

  /// A version as a database gives it; `cells` in the order of the columns.
  Bits128 of(std::string_view site, std::string_view uid, RawRow cells);
  /// The same of the row of a table in memory.
  Bits128 of(std::string_view site, std::string_view uid,
             std::span<const std::pair<std::string, const Column*>> columns, std::size_t row);
  /// That the version of that row which the change `from` began has ended.
  Bits128 of_end(std::string_view site, std::string_view uid, std::int64_t from);

 private:
  struct Place {
    std::size_t at;
    std::uint64_t tag;  ///< stands for the column's name
  };

  void begin(std::string_view site, std::string_view uid);
  void add(std::uint64_t value);
  void add(const Place& place, std::int64_t value);
  void add(const Place& place, std::string_view text);

  std::uint64_t table_;
  std::vector<Place> places_;  ///< by name
  std::string bytes_;
};

/// What the open change on a connection has written so far.
class WrittenSums {
 public:
  void clear();
  void add(const NewVersions& rows, std::string_view site);
  const ChangeSums& sums() const { return sums_; }
  /// That versions of its own that were added are gone from a table again.
  void dropped_from(std::string_view table) { dropped_.emplace(table); }
  const std::set<std::string>& dropped() const { return dropped_; }
  /// That versions in a table were ended.
  void ended_in(std::string_view table) { touched_.emplace(table); }
  /// Tables in which versions were begun, ended or dropped.
  bool touched(const std::string& table) const {
    return sums_.contains(table) || touched_.contains(table) || dropped_.contains(table);
  }
  /// That the next record number of a site was set.
  void counter_set(std::int64_t site) { counters_.insert(site); }
  const std::set<std::int64_t>& counters() const { return counters_; }

  /// The codes of sites by their number, as far as looked up within this change.
  std::map<std::int64_t, std::string>& sites() { return sites_; }

 private:
  ChangeSums sums_;
  std::set<std::string> dropped_, touched_;
  std::set<std::int64_t> counters_;
  std::map<std::int64_t, std::string> sites_;
};

}  // namespace sherd::store
