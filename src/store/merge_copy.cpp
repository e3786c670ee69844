#include <fmt/format.h>
#include <soci/soci.h>

#include <map>
#include <string>

#include "store/merge_replay.h"
#include "store/sql_store.h"
#include "store/sqlite_dialect.h"
#include "store/sqlite_file.h"

// Copies that are taken away: making one, and what a store says of itself and of them.
namespace sherd::store {

namespace {

// Kept in stores: do not change.
constexpr const char* kUid = "copy_uid";
constexpr const char* kName = "copy_name";
constexpr const char* kBaseSeq = "copy_base_seq";
constexpr const char* kBaseUid = "copy_base_uid";

void set_meta(soci::session& sql, const std::string& name, const std::string& value) {
  sql << "insert into meta (name, value) values (:n, :v) on conflict (name) do update set value = excluded.value",
      soci::use(name), soci::use(value);
}

Result<CopyNote> write_note(Dialect& copy, CopyNote note, const std::vector<NumberBlock>& blocks) {
  soci::session& sql = copy.sql();
  long long seq = 0;
  sql << "begin immediate";
  sql << "select seq, uid from change order by seq desc limit 1", soci::into(seq), soci::into(note.base_uid);
  if (!sql.got_data()) return fail("no_site", "the store is empty: there is nothing to take a copy of");
  note.base_seq = seq;
  set_meta(sql, kUid, note.uid);
  set_meta(sql, kName, note.name);
  set_meta(sql, kBaseSeq, std::to_string(seq));
  set_meta(sql, kBaseUid, note.base_uid);
  sql << "delete from record_lease";
  // A site without a block has none to give: its numbers are its parent's.
  sql << "insert into record_lease (site, next, last) select id, 1, 0 from site";
  for (const NumberBlock& block : blocks) {
    SHERD_TRY(const long long site, site_id(copy, block.site));
    const long long first = block.first, last = block.last;
    sql << "update record_lease set next = :n, last = :l where site = :s", soci::use(first), soci::use(last),
        soci::use(site);
  }
  sql << "commit";
  std::string mode;  // a single file that needs nothing beside it, wherever it is carried
  sql << "pragma journal_mode = delete", soci::into(mode);
  return note;
}

}  // namespace

Result<CopyNote> SqlStore::make_copy(const std::string& file, const std::string& uid, const std::string& name,
                                     const std::vector<NumberBlock>& blocks) {
  if (file_exists(file)) {
    return fail("store_exists", fmt::format("{} is there already", file), "Give a name that is not taken");
  }
  SHERD_CHECK(check_local(file));
  // Under another name until it knows what it is: without its note it would give numbers that are not its own.
  const std::string part = name_beside(file, "new");
  SHERD_CHECK(backup(part));
  auto made = [&]() -> Result<CopyNote> {
    SHERD_TRY(const auto copy, connect_sqlite(part, {}));
    return guarded(*copy, [&] { return write_note(*copy, {uid, name, 0, {}}, blocks); });
  }();
  if (made) {
    if (const auto placed = put_in_place(part, file); !placed) made = std::unexpected(placed.error());
  }
  if (!made) discard(part);
  return made;
}

Result<std::optional<CopyNote>> SqlStore::copy_note() {
  return reading([&]() -> Result<std::optional<CopyNote>> {
    Table rows;
    for (const char* name : {"name", "value"}) rows.add(name, CellType::text);
    dialect().fetch("select name, value from meta where name like 'copy_%'", {}, rows);
    std::map<std::string, std::string, std::less<>> said;
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      said.emplace(rows.columns()[0].text(row), rows.columns()[1].text(row));
    }
    if (!said.contains(kUid)) return std::nullopt;
    return CopyNote{said[kUid], said[kName], std::atoll(said[kBaseSeq].c_str()), said[kBaseUid]};
  });
}

Result<std::vector<TableChanges>> SqlStore::table_changes(std::int64_t seq) {
  return reading([&]() -> Result<std::vector<TableChanges>> { return load_table_changes(dialect(), seq); });
}

Result<std::vector<OpenConflict>> SqlStore::conflicts() {
  return reading([&]() -> Result<std::vector<OpenConflict>> { return list_conflicts(dialect()); });
}

}  // namespace sherd::store
