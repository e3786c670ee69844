#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

#include "store/change_hash.h"
#include "store/store.h"

/// Reading the hashes of a whole store anew; for change_hash.cpp and content_check.cpp.
namespace sherd::store {

/// What is noted beside a change.
struct Seal {
  std::string sums;
  std::string counters;   ///< as counter_text has them, of the sites whose record numbers it moved
  std::int64_t late = 0;  ///< 1: noted when the store was led forward, not when the change was made
  std::string link;
  std::string copy;  ///< the copy that the change was merged from; it stands elsewhere
};

/// Where the record numbers of a site have come to.
struct Counter {
  std::int64_t next = 0;
  std::optional<std::pair<std::int64_t, std::int64_t>> lease;  ///< in a copy: next and last of its own
};
/// "SITE:NEXT", in a copy "SITE:NEXT:LEASE-NEXT:LEASE-LAST".
std::string counter_text(std::int64_t site, const Counter& counter);

/// The link of a change to the one before it, whose link is `before`: SHA-256, in hexadecimal.
std::string link_of(std::string_view before, const Change& change, const Seal& seal);

extern const RawTable kSealTable;

std::int64_t integer_in(const RawCell& cell);
std::string_view text_in(const RawCell& cell);

/// All changes of a store, by their numbers.
std::map<std::int64_t, Change> scan_changes(const Scan& scan);
/// The codes of sites, and their record numbers, by their numbers.
std::map<std::int64_t, std::string> scan_sites(const Scan& scan);
std::map<std::int64_t, Counter> scan_counters(const Scan& scan);
/// The copies that changes were merged from, by the changes' numbers.
std::map<std::int64_t, std::string> scan_copies(const Scan& scan);

/// What every change wrote and ended, from the rows as they stand.
class AllSums {
 public:
  AllSums(const Scan& scan, const std::vector<RawTable>& tables, const std::map<std::int64_t, std::string>& sites);

  ChangeSums of(std::int64_t seq) const;
  /// The hash and size of each document's bytes, with the name of one that has them.
  const std::map<std::pair<std::string, std::int64_t>, std::string>& documents() const { return documents_; }

 private:
  using BySeq = std::unordered_map<std::int64_t, TableSums>;

  void add(const Scan& scan, const RawTable& table, const std::map<std::int64_t, std::string>& sites);
  void note_document(const RawTable& table, RawRow row);

  std::vector<std::pair<std::string, BySeq>> tables_;
  std::map<std::pair<std::string, std::int64_t>, std::string> documents_;
};

}  // namespace sherd::store
