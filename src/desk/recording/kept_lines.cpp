#include "desk/recording/kept_lines.h"

#include <algorithm>
#include <unordered_set>

#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kMostChanges = 500;    ///< more than these are not followed one by one
constexpr std::int64_t kMostTouched = 5000;  ///< after a change of more rows, too

std::vector<std::string> digest_columns() {
  std::vector<std::string> columns{"uid", "changed", "record", "context", "count", "weight_g", "checked_by"};
  for (const std::string_view name : LinesInShort::kSearched) columns.emplace_back(name);
  return columns;
}

}  // namespace

void KeptLines::add(const Table& table, std::size_t row, Site& site) {
  const auto text = [&](std::string_view name) { return std::string(table.find(name)->text(row)); };
  const auto number = [&](std::string_view name) -> std::optional<std::int64_t> {
    const Column& column = *table.find(name);
    return column.is_null(row) ? std::nullopt : std::optional(column.integer(row));
  };
  LineDigest line{text("uid"),
                  text("record"),
                  text("context"),
                  number("count"),
                  number("weight_g"),
                  !text("checked_by").empty(),
                  number("changed").value_or(0),
                  {}};
  for (const std::string_view name : LinesInShort::kSearched) {
    std::string words = lower(table.find(name)->text(row));
    std::ranges::replace(words, '\n', ' ');
    line.words += words + "\n";
  }
  if (line.words.size() == LinesInShort::kSearched.size()) line.words.clear();
  std::vector<LineDigest>& lines = site.in_short.lines;
  const auto [place, is_new] = site.places.try_emplace(line.uid, lines.size());
  if (is_new) {
    lines.push_back(std::move(line));
  } else {
    lines[place->second] = std::move(line);  // it stays where it was
  }
}

Result<void> KeptLines::rebuild(const Session& session, Site& site) {
  site.in_short.lines.clear();
  site.places.clear();
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::sherds, digest_columns(), {}}));
  site.in_short.lines.reserve(table.rows());
  for (std::size_t row = 0; row < table.rows(); ++row) add(table, row, site);
  return {};
}

/// In the place of a line that is gone stays an empty one.
Result<void> KeptLines::leave_out_removed(const Session& session, Site& site) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::sherds, {"uid"}, {}}));
  std::unordered_set<std::string_view> there;
  for (std::size_t row = 0; row < table.rows(); ++row) there.insert(table.columns()[0].text(row));
  for (LineDigest& line : site.in_short.lines) {
    if (line.uid.empty() || there.contains(line.uid)) continue;
    site.places.erase(line.uid);
    line = {};
  }
  return {};
}

/// False where it is better to read all anew.
Result<bool> KeptLines::catch_up(const Session& session, Site& site, std::int64_t newest) {
  SHERD_TRY(const auto changes, session.store->changes(*site.seq));
  if (changes.size() > kMostChanges) return false;
  bool removed = false;
  for (const Change& change : changes) {
    if (change.rows_added + change.rows_changed + change.rows_removed > kMostTouched) return false;
    removed = removed || change.rows_removed > 0;
    site.in_short.authors[change.seq] = {change.who, change.at, change.command};
  }
  SHERD_TRY(const Table table,
            session.store->read({session.site.code, Kind::sherds, digest_columns(), {}, {}, *site.seq}));
  for (std::size_t row = 0; row < table.rows(); ++row) add(table, row, site);
  if (removed) SHERD_CHECK(leave_out_removed(session, site));
  site.seq = changes.empty() ? newest : changes.back().seq;
  if (!changes.empty()) site.uid = changes.back().uid;
  return true;
}

Result<void> KeptLines::follow(const Session& session, Site& site) {
  SHERD_TRY(const auto newest, session.store->newest_change());
  const std::int64_t seq = newest ? newest->seq : 0;
  if (site.seq && *site.seq == seq && (!newest || newest->uid == site.uid)) return {};
  if (site.seq && *site.seq < seq) {
    SHERD_TRY(const auto since, session.store->changes(*site.seq - 1));
    const bool same_store = !since.empty() && since.front().seq == *site.seq && since.front().uid == site.uid;
    if (same_store) {
      SHERD_TRY(const bool done, catch_up(session, site, seq));
      if (done) return {};
    }
  }
  site.in_short.authors.clear();
  SHERD_TRY(const auto changes, session.store->changes(0));
  for (const Change& change : changes) site.in_short.authors[change.seq] = {change.who, change.at, change.command};
  SHERD_CHECK(rebuild(session, site));
  site.seq = seq;
  site.uid = newest ? newest->uid : std::string{};
  return {};
}

Result<void> KeptLines::look(const Session& session, const Look& look) {
  const std::lock_guard lock(mutex_);
  Site& site = sites_[session.site.code];
  if (auto followed = follow(session, site); !followed) {
    site = {};
    return followed;
  }
  return look(site.in_short);
}

Result<void> look_at_lines(const Session& session, const Environment& environment, const KeptLines::Look& look) {
  if (environment.kept_lines) return environment.kept_lines->look(session, look);
  KeptLines once;
  return once.look(session, look);
}

}  // namespace sherd::desk
