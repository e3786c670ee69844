#include "store/change_hash.h"

#include <fmt/format.h>
#include <soci/soci.h>

#include <algorithm>

#include "store/change_sums.h"
#include "store/sql_store.h"
#include "store/versioned.h"

namespace sherd::store {

namespace {

const std::string& code_of(Dialect& dialect, WrittenSums& written, std::int64_t site) {
  const auto found = written.sites().find(site);
  if (found != written.sites().end()) return found->second;
  std::string code;
  const long long id = site;
  dialect.sql() << "select code from site where id = :i", soci::use(id), soci::into(code);
  return written.sites().emplace(site, std::move(code)).first->second;
}

/// A table of which the change has dropped versions of its own again: read anew what it has there.
TableSums read_anew(Dialect& dialect, const std::string& name, std::int64_t seq, WrittenSums& written) {
  const Versioned& table = *std::ranges::find(versioned_tables(), name, &Versioned::table);
  Table sites;
  sites.add("site", CellType::count);
  dialect.fetch(fmt::format("select distinct site from {} where from_change = {}", table.table, seq), {}, sites);
  WrittenSums anew;
  for (const std::int64_t site : sites.columns()[0].integers()) {
    const Table rows = fetch_versions(dialect, table, fmt::format("site = {} and from_change = {}", site, seq));
    const Column& uids = *rows.find("uid");
    NewVersions versions{table.table, site, seq, {}, [&](std::size_t row) { return uids.text(row); }, rows.rows()};
    for (const StoredColumn& column : table.columns) {
      versions.columns.emplace_back(column.stored, rows.find(column.name));
    }
    anew.add(versions, code_of(dialect, written, site));
  }
  const auto found = anew.sums().find(table.table);
  return found == anew.sums().end() ? TableSums{} : found->second;
}

void add_ended(Dialect& dialect, std::int64_t seq, WrittenSums& written, ChangeSums& sums) {
  std::string query;
  for (const Versioned& table : versioned_tables()) {
    if (!written.touched(table.table)) continue;
    query += fmt::format("{0}select '{1}' as name, site, uid, from_change from {1} where to_change = :t1",
                         query.empty() ? "" : " union all ", table.table);
  }
  if (query.empty()) return;
  Table ended;
  ended.add("name", CellType::text);
  ended.add("site", CellType::count);
  ended.add("uid", CellType::text);
  ended.add("from_change", CellType::count);
  dialect.fetch(query, std::vector<std::string>{std::to_string(seq)}, ended);
  for (std::size_t row = 0; row < ended.rows(); ++row) {
    const std::string table(ended.columns()[0].text(row));
    sums[table].ended += VersionHash(table, {}).of_end(code_of(dialect, written, ended.columns()[1].integer(row)),
                                                       ended.columns()[2].text(row), ended.columns()[3].integer(row));
  }
}

std::string counters_text(Dialect& dialect, const WrittenSums& written) {
  std::string text;
  for (const std::int64_t site : written.counters()) {
    const long long id = site;
    long long next = 0, lease = 0, last = 0;
    soci::session& sql = dialect.sql();
    sql << "select next from record_counter where site = :s", soci::use(id), soci::into(next);
    Counter counter{next, {}};
    sql << "select next, last from record_lease where site = :s", soci::use(id), soci::into(lease), soci::into(last);
    if (sql.got_data()) counter.lease = {lease, last};
    text += (text.empty() ? "" : " ") + counter_text(site, counter);
  }
  return text;
}

}  // namespace

Scan scan_of(Dialect& dialect) {
  return [&](const RawTable& table, const std::function<void(RawRow)>& row) { dialect.scan(table, row); };
}

void seal_change(Dialect& dialect, std::int64_t seq, WrittenSums& written) {
  ChangeSums sums = written.sums();
  for (const std::string& table : written.dropped()) sums[table] = read_anew(dialect, table, seq, written);
  add_ended(dialect, seq, written, sums);
  Seal seal{sums_text(sums), counters_text(dialect, written), 0, {}, {}};
  const std::vector<Change> change = load_changes(dialect, seq - 1, true);
  if (change.empty()) throw soci::soci_error("a change is kept that is not there");
  const long long number = seq, before = seq - 1;
  std::string link;
  dialect.sql() << "select link from change_hash where seq = :s", soci::use(before), soci::into(link);
  dialect.sql() << "select copy from merged_change where change = :s", soci::use(number), soci::into(seal.copy);
  seal.link = link_of(link, change.front(), seal);
  dialect.sql() << "insert into change_hash (seq, sums, counters, late, link) values (:s, :w, :c, 0, :l)",
      soci::use(number), soci::use(seal.sums), soci::use(seal.counters), soci::use(seal.link);
}

void seal_former_changes(Dialect& dialect) {
  const Scan scan = scan_of(dialect);
  const auto changes = scan_changes(scan);
  if (changes.empty()) return;
  const AllSums sums(scan, hashed_tables(), scan_sites(scan));
  std::string counters;
  for (const auto& [site, counter] : scan_counters(scan)) {
    counters += (counters.empty() ? "" : " ") + counter_text(site, counter);
  }
  const auto copies = scan_copies(scan);
  const auto writer = dialect.writer(kSealTable);
  std::string link;
  for (const auto& [seq, change] : changes) {
    Seal seal{sums_text(sums.of(seq)), seq == changes.rbegin()->first ? counters : std::string(), 1, {}, {}};
    if (const auto found = copies.find(seq); found != copies.end()) seal.copy = found->second;
    seal.link = link_of(link, change, seal);
    link = seal.link;
    const std::vector<RawCell> row{seq, std::string_view(seal.sums), std::string_view(seal.counters), seal.late,
                                   std::string_view(seal.link)};
    writer->add(row);
  }
  writer->finish();
}

}  // namespace sherd::store
