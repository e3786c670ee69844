#include "desk/site/import_update.h"

#include "base/text.h"
#include "desk/dates/flags.h"
#include "exchange/record_reader.h"
#include "methods/stratigraphy/graph.h"
#include "model/rows.h"

namespace sherd::desk {

Result<std::unique_ptr<UpdateMatcher>> UpdateMatcher::make(const Session& session, Kind kind, const std::string& only,
                                                           Environment& environment) {
  std::unique_ptr<UpdateMatcher> matcher(new UpdateMatcher(kind));
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
  if (only.empty()) return matcher;
  SHERD_TRY(const std::string text, environment.files->read(only));
  matcher->only_ = std::make_unique<exchange::NameSet>();
  for (const std::string_view line : split(text, '\n')) {
    if (const std::string_view key = trim(line); !key.empty()) matcher->only_->add(key);
  }
  return matcher;
}

bool UpdateMatcher::compare(const Table& rows, std::size_t row, std::size_t stored, const std::string& key) {
  bool differs = false;
  const Column& uid = *stored_.find("uid");
  for (std::size_t i = 0; i < rows.columns().size(); ++i) {
    const std::string& name = rows.names()[i];
    const Column* before = stored_.find(name);
    const bool not_in_the_file = name.ends_with("_certainty") && rows.columns()[i].is_null(row);
    if (before == nullptr || not_in_the_file) continue;
    const std::string was = cell_text(*before, stored);
    const std::string now = cell_text(rows.columns()[i], row);
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
    if (only_ && !only_->has(key)) {
      ++left_out_;
      continue;
    }
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

Result<void> warn_of_loops(const Session& session, Kind kind, bool imported, std::vector<std::string>& warnings) {
  if (kind != Kind::relations || !imported) return {};
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::relations, {}, {}}));
  const stratigraphy::Graph graph({}, rows_from<Relation>(table));
  for (const stratigraphy::Loop& loop : graph.loops()) {
    warnings.push_back(loop_sentence(loop));
  }
  return {};
}

}  // namespace sherd::desk
