#include "desk/archive/archive_about.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/archive/archive_csv.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

void widen(YearRange& span, const Table& rows, const char* from, const char* to) {
  const Column& earliest = *rows.find(from);
  const Column& latest = *rows.find(to);
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    if (!earliest.is_null(row) && (!span.earliest || earliest.integer(row) < span.earliest->value))
      span.earliest = Year{earliest.integer(row)};
    if (!latest.is_null(row) && (!span.latest || latest.integer(row) > span.latest->value))
      span.latest = Year{latest.integer(row)};
  }
}

Result<void> add_amounts(const Session& session, ArchiveAbout& about) {
  const std::string& site = session.site.code;
  SHERD_TRY(const Table lines,
            session.store->read({site, Kind::sherds, {"count", "weight_g", "earliest", "latest", "fabric"}}));
  about.lines = static_cast<std::int64_t>(lines.rows());
  for (std::size_t row = 0; row < lines.rows(); ++row) {
    if (!lines.columns()[0].is_null(row)) about.sherds += lines.columns()[0].integer(row);
    if (!lines.columns()[1].is_null(row)) about.weight.mg += lines.columns()[1].integer(row);
  }
  widen(about.span, lines, "earliest", "latest");
  SHERD_TRY(const Table contexts, session.store->read({site, Kind::contexts, {"context", "my_earliest", "my_latest"}}));
  about.contexts = static_cast<std::int64_t>(contexts.rows());
  widen(about.span, contexts, "my_earliest", "my_latest");
  SHERD_TRY(const Table fabrics,
            session.store->read({site, Kind::fabrics, {"fabric", "ware_group", "earliest", "latest"}}));
  std::set<std::string_view> used;
  const Column& of_line = lines.columns()[4];
  for (std::size_t row = 0; row < lines.rows(); ++row) used.insert(of_line.text(row));
  std::set<std::string> groups;
  for (std::size_t row = 0; row < fabrics.rows(); ++row) {
    if (used.contains(fabrics.columns()[0].text(row)) && !fabrics.columns()[1].is_null(row))
      groups.emplace(fabrics.columns()[1].text(row));
  }
  about.ware_groups.assign(groups.begin(), groups.end());
  if (about.span.empty()) widen(about.span, fabrics, "earliest", "latest");
  return {};
}

Result<void> add_creators(const Session& session, ArchiveAbout& about) {
  if (about.repository && !about.repository->creator.empty()) {
    for (const auto name : split(about.repository->creator, ';')) about.creators.emplace_back(trim(name));
    return {};
  }
  SHERD_TRY(const Table people, session.store->read({session.site.code, Kind::people, {"name"}}));
  for (std::size_t row = 0; row < people.rows(); ++row) {
    if (!people.columns()[0].is_null(row)) about.creators.emplace_back(people.columns()[0].text(row));
  }
  if (!about.creators.empty()) return {};
  SHERD_TRY(const auto changes, session.store->changes(0));
  std::set<std::string> who;
  for (const Change& one : changes) who.insert(one.who);
  about.creators.assign(who.begin(), who.end());
  return {};
}

}  // namespace

std::string ArchiveAbout::title() const {
  return (site.title.empty() ? site.code : site.title + " (" + site.code + ")") + ": pottery archive";
}

std::string slashed(const std::string& day) {
  if (!is_day(day)) return {};
  return day.substr(8, 2) + "/" + day.substr(5, 2) + "/" + day.substr(0, 4);
}

Result<std::optional<Repository>> repository_of(const Session& session) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::repositories, {}}));
  const auto rows = rows_from<Repository>(table);
  const auto named = std::ranges::find(rows, session.site.repository, &Repository::repository);
  if (named != rows.end()) return *named;
  if (session.site.repository.empty() && rows.size() == 1) return rows.front();
  return std::nullopt;
}

Result<ArchiveAbout> archive_about(const Session& session, const Environment& environment) {
  ArchiveAbout about;
  about.site = session.site;
  about.version = environment.version;
  SHERD_TRY(about.repository, repository_of(session));
  if (about.repository) {
    about.copyright_holder = about.repository->copyright_holder;
    about.licence = about.repository->licence;
    about.language = about.repository->language;
  }
  if (about.language.empty()) about.language = "en";
  SHERD_TRY(const auto newest, session.store->newest_change());
  if (!newest) return fail("nothing_to_archive", "nothing was ever written into the store");
  about.last = *newest;
  const std::string day = newest->at.substr(0, std::min<std::size_t>(10, newest->at.size()));
  if (is_day(day)) about.day = day;
  SHERD_CHECK(add_amounts(session, about));
  SHERD_CHECK(add_creators(session, about));
  return about;
}

}  // namespace sherd::desk
