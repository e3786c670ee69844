#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "store/dialect.h"
#include "store/store.h"
#include "store/versioned.h"

namespace sherd::store {

/// Takes one change back within another that is being made. It goes by fields: a field that the change altered gets
/// its former value, where it still has the one that the change gave it; fields altered since by others stay as they
/// are. Rows that it added go, rows that it removed come back.
class Undo {
 public:
  Undo(Dialect& dialect, std::int64_t undone, std::int64_t seq) : dialect_(dialect), undone_(undone), seq_(seq) {}

  /// `undone` is a change that is there. Errors: `nothing_to_undo`, `later_change`, `still_used`, `no_longer_there`.
  /// After an error the change being made must be rolled back. Throws what the database throws.
  Result<void> run();

 private:
  struct Rows;
  struct Plan;

  std::vector<long long> sites_touched(const Versioned& table);
  Result<void> take_back(const Versioned& table, long long site);
  static bool same_row(const Rows& rows, std::size_t was, std::size_t now);
  bool end_untouched_additions(const Versioned& table, long long site);
  Result<void> plan_row(const Rows& rows, const std::string& uid, Plan& plan);
  void apply(const Versioned& table, long long site, const Plan& plan);
  std::unexpected<Error> later_change(const Rows& rows, const std::string& uid, const StoredColumn* column);
  Error named(std::int64_t later, const std::string& what);

  Result<void> check_site(long long site);
  bool keys_vanish(long long site, Kind kind);
  Result<void> check_still_used(long long site, const Versioned& table, const StoredColumn& column);
  Result<void> check_still_there(long long site, const Versioned& table, const StoredColumn& column);
  Result<void> check_key_free(long long site, const Versioned& table);

  Dialect& dialect_;
  std::int64_t undone_;
  std::int64_t seq_;
  std::set<long long> sites_;
};

}  // namespace sherd::store
