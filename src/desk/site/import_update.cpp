#include "desk/site/import_update.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "desk/dates/flags.h"
#include "methods/stratigraphy/graph.h"
#include "model/rows.h"

namespace sherd::desk {

using Json = nlohmann::ordered_json;

namespace {

/// Of a certainty, also where the cell of its column tells it.
bool has_heading_for(const exchange::HeadingPlan& plan, std::string_view column) {
  return std::ranges::any_of(
      plan.columns, [&](const auto& planned) { return planned.spec->name == column && !planned.sources.empty(); });
}

/// Whether the row says anything of that column.
bool is_said(const exchange::HeadingPlan& plan, const std::string& name, bool blank) {
  if (name == "extra" || has_heading_for(plan, name)) return true;
  constexpr std::string_view kCertainty = "_certainty";
  if (!name.ends_with(kCertainty) || blank) return false;
  return has_heading_for(plan, std::string_view(name).substr(0, name.size() - kCertainty.size()));
}

/// What the store kept under headings that this file has too gives way to the file; the rest stays.
std::string merged_extra(const exchange::HeadingPlan& plan, const std::string& was, const std::string& now) {
  Json kept = Json::parse(was, nullptr, false);
  if (!kept.is_object()) kept = Json::object();
  const Json given = Json::parse(now, nullptr, false);
  for (const auto& [source, heading] : plan.extras) {
    if (given.is_object() && given.contains(heading)) {
      kept[heading] = given[heading];
    } else {
      kept.erase(heading);
    }
  }
  return kept.empty() ? std::string{} : kept.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

Result<std::unique_ptr<UpdateMatcher>> UpdateMatcher::make(const Session& session, Kind kind) {
  const KindSpec& spec = kind_spec(kind);
  if (spec.key_names().empty()) {
    return fail("no_key", spec.name + " have no key to match rows by",
                "take the import back with undo and import the table again");
  }
  std::vector<std::string> columns = spec.column_names();
  columns.insert(columns.end(), {"uid", "extra"});
  SHERD_TRY(Table stored, session.store->read({session.site.code, kind, columns, {}}));
  return std::unique_ptr<UpdateMatcher>(new UpdateMatcher(session, std::move(stored)));
}

Result<exchange::NameSet> keys_in_file(const std::string& file, Environment& environment) {
  SHERD_TRY(const std::string text, environment.files->read(file));
  exchange::NameSet keys;
  for (const std::string_view line : split(text, '\n')) {
    if (const std::string_view key = trim(line); !key.empty()) keys.add(key);
  }
  return keys;
}

bool UpdateMatcher::compare(const Table& rows, std::size_t row, std::size_t stored, const exchange::HeadingPlan& plan) {
  bool differs = false;
  const std::string uid(stored_.rows().find("uid")->text(stored));
  for (std::size_t i = 0; i < rows.columns().size(); ++i) {
    const std::string& name = rows.names()[i];
    const Column* before = stored_.rows().find(name);
    if (before == nullptr || !is_said(plan, name, rows.columns()[i].is_null(row))) continue;
    const std::string was = cell_text(*before, stored);
    std::string now = cell_text(rows.columns()[i], row);
    if (name == "extra") now = merged_extra(plan, was, now);
    if (was == now) continue;
    differs = true;
    edits_.push_back({uid, name, was, now});
    differences_.push_back({exchange::key_text(spec_, rows, row), name, was, now});
  }
  return differs;
}

Result<Table> UpdateMatcher::match(const Table& rows, const exchange::HeadingPlan& plan) {
  Table fresh(rows.kind());
  for (std::size_t i = 0; i < rows.columns().size(); ++i) fresh.add(rows.names()[i], rows.columns()[i].type());
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    if (const auto stored = stored_.find(exchange::key_text(spec_, rows, row))) {
      ++(compare(rows, row, *stored, plan) ? changed_ : same_);
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
