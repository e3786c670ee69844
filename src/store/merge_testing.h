#pragma once

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "store/testing.h"

/// What the tests of merging share: a store, and copies of it in files.
namespace sherd::store {

/// Leases numbers of SAL26 and makes a copy with them.
inline std::unique_ptr<Store> copy_of(Store& parent, const TestFolder& folder, const std::string& name,
                                      std::int64_t lease = 50) {
  auto writing = must(parent.begin(note("lease " + name, "lease " + std::to_string(lease) + " numbers to " + name)));
  const std::int64_t first = must(writing->lease_records("SAL26", lease));
  must(writing->commit());
  must(parent.away().make_copy(folder.file(name), "lease " + name, name, {{"SAL26", first, first + lease - 1}}));
  return must(open(folder.file(name)));
}

inline Merged merge_into(Store& copy, Store& into) {
  NoProgress progress;
  return must(merge(copy, into, progress));
}

inline std::vector<OpenConflict> conflicts_of(Store& store) { return must(store.away().conflicts()); }

inline Change settle(Store& store, const std::string& uid, const Settlement& wanted) {
  return change(store, uid, [&](Writing& writing) { return writing.settle(wanted); }, "settle");
}

/// The record of SAL26 by keys and values: uids, which say only who was first, are left out.
inline std::vector<std::string> record_of(Store& store) {
  std::vector<std::string> all;
  for (const KindSpec& spec : all_kinds()) {
    std::vector<std::string> columns = spec.column_names();
    columns.emplace_back("extra");
    for (const std::string& row : read(store, spec.kind, columns)) all.push_back(spec.name + " " + row);
  }
  for (const Site& site : must(store.sites())) all.push_back("site " + site.code + " " + site.title);
  std::ranges::sort(all);
  return all;
}

}  // namespace sherd::store
