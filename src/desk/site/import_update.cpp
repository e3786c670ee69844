#include "desk/site/import_update.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "desk/dates/flags.h"
#include "exchange/record_reader.h"
#include "methods/stratigraphy/graph.h"
#include "model/rows.h"

namespace sherd::desk {

using Json = nlohmann::ordered_json;

Result<std::unique_ptr<UpdateMatcher>> UpdateMatcher::make(const Session& session, Kind kind,
                                                           const exchange::HeadingPlan& plan) {
  std::unique_ptr<UpdateMatcher> matcher(new UpdateMatcher(kind, plan));
  if (matcher->spec_.key_names().empty()) {
    return fail("no_key", matcher->spec_.name + " have no key to match rows by",
                "take the import back with undo and import the table again");
  }
  matcher->site_ = session.site.code;
  std::vector<std::string> columns = matcher->spec_.column_names();
  columns.insert(columns.end(), {"uid", "extra"});
  SHERD_TRY(matcher->stored_, session.store->read({session.site.code, kind, columns, {}}));
  for (std::size_t row = 0; row < matcher->stored_.rows(); ++row) {
    matcher->index_.emplace(exchange::key_text(matcher->spec_, matcher->stored_, row), row);
  }
  return matcher;
}

Result<exchange::NameSet> keys_in_file(const std::string& file, Environment& environment) {
  SHERD_TRY(const std::string text, environment.files->read(file));
  exchange::NameSet keys;
  for (const std::string_view line : split(text, '\n')) {
    if (const std::string_view key = trim(line); !key.empty()) keys.add(key);
  }
  return keys;
}

bool UpdateMatcher::has_heading_for(std::string_view column) const {
  return std::ranges::any_of(plan_.columns, [&](const auto& planned) { return planned.spec->name == column; });
}

/// What the store kept under headings that this file has too gives way to the file; the rest stays.
std::string UpdateMatcher::merged_extra(const std::string& was, const std::string& now) const {
  Json kept = Json::parse(was, nullptr, false);
  if (!kept.is_object()) kept = Json::object();
  const Json given = Json::parse(now, nullptr, false);
  for (const auto& [source, heading] : plan_.extras) {
    if (given.is_object() && given.contains(heading)) {
      kept[heading] = given[heading];
    } else {
      kept.erase(heading);
    }
  }
  return kept.empty() ? std::string{} : kept.dump(-1, ' ', false, Json::error_handler_t::replace);
}

bool UpdateMatcher::compare(const Table& rows, std::size_t row, std::size_t stored, const std::string& key) {
  bool differs = false;
  const Column& uid = *stored_.find("uid");
  for (std::size_t i = 0; i < rows.columns().size(); ++i) {
    const std::string& name = rows.names()[i];
    const Column* before = stored_.find(name);
    const bool unsaid = name.ends_with("_certainty") && rows.columns()[i].is_null(row) && !has_heading_for(name);
    if (before == nullptr || unsaid) continue;
    const std::string was = cell_text(*before, stored);
    std::string now = cell_text(rows.columns()[i], row);
    if (name == "extra") now = merged_extra(was, now);
    if (was == now) continue;
    differs = true;
    edits_.push_back({std::string(uid.text(stored)), name, was, now});
    differences_.push_back({key, name, was, now});
  }
  return differs;
}

Result<Table> UpdateMatcher::match(const Table& rows) {
  Table fresh(rows.kind());
  for (std::size_t i = 0; i < rows.columns().size(); ++i) fresh.add(rows.names()[i], rows.columns()[i].type());
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    const std::string key = exchange::key_text(spec_, rows, row);
    const auto stored = key.empty() ? index_.end() : index_.find(key);
    if (stored != index_.end()) {
      ++(compare(rows, row, stored->second, key) ? changed_ : same_);
      continue;
    }
    ++new_;
    for (std::size_t i = 0; i < rows.columns().size(); ++i) {
      const Column& from = rows.columns()[i];
      Column& to = fresh.columns()[i];
      if (is_text(from.type())) {
        to.push_text(from.text(row));
      } else {
        to.push_integer(from.integer(row));
      }
    }
  }
  return fresh;
}

Result<void> UpdateMatcher::apply(Writing& writing) const {
  for (const Edit& edit : edits_) SHERD_CHECK(writing.edit(site_, spec_.kind, edit));
  return {};
}

Result<std::vector<std::string>> loop_warnings(const Session& session) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::relations, {}, {}}));
  const stratigraphy::Graph graph({}, rows_from<Relation>(table));
  std::vector<std::string> warnings;
  for (const stratigraphy::Loop& loop : graph.loops()) warnings.push_back(loop_sentence(loop));
  return warnings;
}

}  // namespace sherd::desk
