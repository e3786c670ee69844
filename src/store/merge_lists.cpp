#include <fmt/format.h>

#include <string>

#include "store/merge_replay.h"

// What a replayed change did beside the rows of the record: documents, and lists of the store's own.
namespace sherd::store {

void Replay::replay_documents(long long site, const TableChanges& changes) {
  const std::string beside = fmt::format(" (from {})", copy_.copy.name);
  const auto now_at = rows_by_uid(changes.now);
  for (std::size_t row = 0; row < changes.now.rows(); ++row) {
    const Document& document = changes.documents[row];
    const auto here = current_version(dialect_, documents(), site, document.name);
    const bool same = here && here->find("sha256")->text(0) == changes.now.find("sha256")->text(row);
    if (same) continue;
    const bool free = !here || knowledge_.known(here->find("from_change")->integer(0));
    to_.put_bytes(document.bytes);
    to_.set(site, documents(), free ? document.name : document.name + beside,
            single_row(documents(), changes.now, row));
  }
  for (std::size_t row = 0; row < changes.was.rows(); ++row) {
    if (now_at.contains(changes.was.find("uid")->text(row))) continue;
    const std::string name(changes.was.find("uid")->text(row));
    for (const std::string& each : {name + beside, name}) {
      const auto here = current_version(dialect_, documents(), site, each);
      if (!here || !knowledge_.known(here->find("from_change")->integer(0))) continue;
      to_.end(site, documents(), each);
      break;
    }
  }
}

/// Lists of the store's own: what is there stays, what the copy took away goes where the copy knew it.
void Replay::replay_plain(long long site, const Versioned& table, const TableChanges& changes) {
  const auto now_at = rows_by_uid(changes.now);
  for (std::size_t row = 0; row < changes.now.rows(); ++row) {
    const std::string uid(changes.now.find("uid")->text(row));
    const auto here = current_version(dialect_, table, site, uid);
    if (here && !knowledge_.known(here->find("from_change")->integer(0))) continue;
    Table cells = single_row(table, changes.now, row);
    if (&table == &merge_conflicts()) {
      cells.find("number")->set_integer(0, here ? here->find("number")->integer(0) : to_.next_number());
    }
    to_.set(site, table, uid, cells);
  }
  for (std::size_t row = 0; row < changes.was.rows(); ++row) {
    const std::string uid(changes.was.find("uid")->text(row));
    if (now_at.contains(uid)) continue;
    const auto here = current_version(dialect_, table, site, uid);
    const bool settled = &table == &merge_conflicts();
    if (here && (settled || knowledge_.known(here->find("from_change")->integer(0)))) to_.end(site, table, uid);
  }
}

}  // namespace sherd::store
