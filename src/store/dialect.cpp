#include "store/dialect.h"

#include <soci/soci.h>

#include "store/change_hash.h"

namespace sherd::store {

void Dialect::begin_change() {
  written_.clear();
  begin_writing();
}

void Dialect::commit_change(std::int64_t seq) {
  seal_change(*this, seq, written_);
  commit_writing(seq);
}

void Dialect::add_versions(const NewVersions& rows) {
  put_versions(rows);
  auto& sites = written_.sites();
  auto found = sites.find(rows.site);
  if (found == sites.end()) {
    std::string code;
    const long long id = rows.site;
    sql() << "select code from site where id = :i", soci::use(id), soci::into(code);
    found = sites.emplace(rows.site, std::move(code)).first;
  }
  written_.add(rows, found->second);
}

bool roll_back(Dialect& dialect) {
  const auto done = guarded(dialect, [&]() -> Result<void> {
    dialect.sql() << "rollback";
    return {};
  });
  return done.has_value();
}

}  // namespace sherd::store
