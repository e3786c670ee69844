#include "store/change_sums.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "store/versioned.h"

namespace sherd::store {

namespace {

constexpr std::size_t kOwn = 4;  // uid, site, from_change, to_change

const std::vector<RawColumn>& own_columns() {
  static const std::vector<RawColumn> kColumns{{"uid", Storage::text},
                                               {"site", Storage::integer},
                                               {"from_change", Storage::integer},
                                               {"to_change", Storage::integer}};
  return kColumns;
}

const RawTable kChangeTable{"change",
                            {{"seq", Storage::integer},
                             {"uid", Storage::text},
                             {"at", Storage::text},
                             {"who", Storage::text},
                             {"origin", Storage::text},
                             {"command", Storage::text},
                             {"undoes", Storage::integer},
                             {"rows_added", Storage::integer},
                             {"rows_changed", Storage::integer},
                             {"rows_removed", Storage::integer}}};

/// With its length before it, so that no two lists of texts look alike.
void add_part(std::string& to, std::string_view part) { to += fmt::format("{}:{}\n", part.size(), part); }

}  // namespace

const RawTable kSealTable{"change_hash",
                          {{"seq", Storage::integer},
                           {"sums", Storage::text},
                           {"counters", Storage::text},
                           {"late", Storage::integer},
                           {"link", Storage::text}}};

std::int64_t integer_in(const RawCell& cell) {
  const auto* integer = std::get_if<std::int64_t>(&cell);
  return integer == nullptr ? 0 : *integer;
}

std::string_view text_in(const RawCell& cell) {
  const auto* text = std::get_if<std::string_view>(&cell);
  return text == nullptr ? std::string_view() : *text;
}

std::string counter_text(std::int64_t site, const Counter& counter) {
  if (!counter.lease) return fmt::format("{}:{}", site, counter.next);
  return fmt::format("{}:{}:{}:{}", site, counter.next, counter.lease->first, counter.lease->second);
}

std::string link_of(std::string_view before, const Change& change, const Seal& seal) {
  std::string bytes;
  add_part(bytes, before);
  add_part(bytes, std::to_string(change.seq));
  for (const std::string& text : {change.uid, change.at, change.who, change.origin, change.command}) {
    add_part(bytes, text);
  }
  add_part(bytes, change.undoes ? std::to_string(*change.undoes) : "");
  for (const std::int64_t count : {change.rows_added, change.rows_changed, change.rows_removed}) {
    add_part(bytes, std::to_string(count));
  }
  add_part(bytes, seal.sums);
  add_part(bytes, seal.counters);
  add_part(bytes, std::to_string(seal.late));
  add_part(bytes, seal.copy);
  return sha256(bytes);
}

std::map<std::int64_t, Change> scan_changes(const Scan& scan) {
  std::map<std::int64_t, Change> changes;
  scan(kChangeTable, [&](RawRow row) {
    Change change;
    change.seq = integer_in(row[0]);
    std::size_t at = 1;
    for (std::string* text : {&change.uid, &change.at, &change.who, &change.origin, &change.command}) {
      *text = text_in(row[at++]);
    }
    if (const auto* undoes = std::get_if<std::int64_t>(&row[at++])) change.undoes = *undoes;
    for (std::int64_t* count : {&change.rows_added, &change.rows_changed, &change.rows_removed}) {
      *count = integer_in(row[at++]);
    }
    changes.emplace(change.seq, std::move(change));
  });
  return changes;
}

std::map<std::int64_t, std::string> scan_sites(const Scan& scan) {
  std::map<std::int64_t, std::string> sites;
  scan({"site", {{"id", Storage::integer}, {"code", Storage::text}}},
       [&](RawRow row) { sites.emplace(integer_in(row[0]), text_in(row[1])); });
  return sites;
}

std::map<std::int64_t, Counter> scan_counters(const Scan& scan) {
  std::map<std::int64_t, Counter> counters;
  scan({"record_counter", {{"site", Storage::integer}, {"next", Storage::integer}}},
       [&](RawRow row) { counters[integer_in(row[0])].next = integer_in(row[1]); });
  scan({"record_lease", {{"site", Storage::integer}, {"next", Storage::integer}, {"last", Storage::integer}}},
       [&](RawRow row) { counters[integer_in(row[0])].lease = {integer_in(row[1]), integer_in(row[2])}; });
  return counters;
}

std::map<std::int64_t, std::string> scan_copies(const Scan& scan) {
  std::map<std::int64_t, std::string> copies;
  scan({"merged_change", {{"change", Storage::integer}, {"copy", Storage::text}}},
       [&](RawRow row) { copies.emplace(integer_in(row[0]), text_in(row[1])); });
  return copies;
}

std::vector<RawTable> hashed_tables() {
  std::vector<RawTable> tables;
  for (const Versioned& table : versioned_tables()) {
    RawTable raw{table.table, own_columns()};
    for (const StoredColumn& column : table.columns) {
      raw.columns.push_back({column.stored, is_text(column.type) ? Storage::text : Storage::integer});
    }
    tables.push_back(std::move(raw));
  }
  return tables;
}

std::vector<RawTable> hashed_tables(const std::vector<RawTable>& all) {
  const auto is_own = [](const RawColumn& column) {
    return std::ranges::any_of(own_columns(), [&](const RawColumn& own) { return own.name == column.name; });
  };
  std::vector<RawTable> tables;
  for (const RawTable& table : all) {
    if (std::ranges::count_if(table.columns, is_own) != static_cast<std::ptrdiff_t>(kOwn)) continue;
    RawTable raw{table.name, own_columns()};
    std::ranges::copy_if(table.columns, std::back_inserter(raw.columns),
                         [&](const RawColumn& column) { return !is_own(column); });
    tables.push_back(std::move(raw));
  }
  return tables;
}

AllSums::AllSums(const Scan& scan, const std::vector<RawTable>& tables,
                 const std::map<std::int64_t, std::string>& sites) {
  for (const RawTable& table : tables) add(scan, table, sites);
}

void AllSums::add(const Scan& scan, const RawTable& table, const std::map<std::int64_t, std::string>& sites) {
  BySeq& sums = tables_.emplace_back(table.name, BySeq()).second;
  std::vector<std::string> names;
  for (std::size_t i = kOwn; i < table.columns.size(); ++i) names.push_back(table.columns[i].name);
  VersionHash hash(table.name, names);
  const std::string no_site;
  // Rows of one change and site mostly stand together.
  std::int64_t last_site = -1, last_from = -1;
  const std::string* code = &no_site;
  TableSums* begun = nullptr;
  scan(table, [&](RawRow row) {
    const std::string_view uid = text_in(row[0]);
    const std::int64_t site = integer_in(row[1]), from = integer_in(row[2]);
    if (site != std::exchange(last_site, site)) {
      const auto found = sites.find(site);
      code = found == sites.end() ? &no_site : &found->second;
    }
    if (from != std::exchange(last_from, from) || begun == nullptr) begun = &sums[from];
    begun->wrote += hash.of(*code, uid, row.subspan(kOwn));
    if (const auto* to = std::get_if<std::int64_t>(&row[3])) sums[*to].ended += hash.of_end(*code, uid, from);
    if (table.name == store::documents().table) note_document(table, row);
  });
}

void AllSums::note_document(const RawTable& table, RawRow row) {
  std::string bytes_hash;
  std::int64_t size = 0;
  for (std::size_t i = kOwn; i < table.columns.size(); ++i) {
    if (table.columns[i].name == "sha256") bytes_hash = text_in(row[i]);
    if (table.columns[i].name == "bytes") size = integer_in(row[i]);
  }
  documents_.emplace(std::pair(std::move(bytes_hash), size), text_in(row[0]));
}

ChangeSums AllSums::of(std::int64_t seq) const {
  ChangeSums sums;
  for (const auto& [table, by_seq] : tables_) {
    if (const auto found = by_seq.find(seq); found != by_seq.end()) sums.emplace(table, found->second);
  }
  return sums;
}

}  // namespace sherd::store
