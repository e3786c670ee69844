#include <algorithm>

#include "base/text.h"
#include "desk/recording/edit_steps.h"

/// Steps that write rows: add, set, remove.
namespace sherd::desk {

namespace {

/// A line without count and weight is on its way, not wrong: the note says what is missing.
constexpr std::string_view kUnfinished = "no_quantity";

std::string certainty_name(const ColumnSpec& column) { return column.name + "_certainty"; }

}  // namespace

Result<bool> EditSteps::fill(const EditStep& step, TypedRow& row) {
  bool good = true;
  for (const auto& [name, typed] : step.values) {
    const ColumnSpec* column = column_of(row.spec().columns, name);
    if (column == nullptr) {
      good = false;
      continue;
    }
    SHERD_TRY(const auto reading, read(*column, typed));
    if (!reading) {
      good = false;
      continue;
    }
    *row.find(name) = reading->value;
    TypedValue* certainty = row.find(certainty_name(*column));
    if (certainty != nullptr && reading->doubt && !step.values.contains(certainty_name(*column)))
      certainty->text = word(*reading->doubt);
  }
  for (const ColumnSpec& column : row.spec().columns) {
    if (!column.required || step.values.contains(column.name)) continue;
    problem(column.name, "",
            {.code = "missing_value", .message = column.name + " is not given", .hint = "every row needs it"});
    good = false;
  }
  return good;
}

Result<bool> EditSteps::check_new(TypedRow& row) {
  row.order_relation();
  bool good = true;
  for (const exchange::Problem& broken : row.broken_rules()) {
    if (broken.code == kUnfinished) {
      note(broken.column, "", broken.message);
      continue;
    }
    problem(broken);
    good = false;
  }
  SHERD_TRY(const bool taken, rows_.key_is_taken(row, {}));
  if (taken && !row.key_text().empty()) {
    problem(row.spec().key_names().front(), row.key_text(),
            {.code = "already_there",
             .message = row.spec().one + " \"" + shortened(row.key_text(), 60) + "\" is in the record already",
             .hint = "alter that one, or give this one another name"});
    good = false;
  }
  return good;
}

Result<void> EditSteps::add(const EditStep& step) {
  const auto kind = kind_of(step);
  if (!step.as.empty()) made_[step.as] = std::nullopt;
  if (!kind) return {};
  TypedRow row(*kind);
  SHERD_TRY(const bool filled, fill(step, row));
  if (!filled) return {};
  if (*kind == Kind::sherds && row.find("record")->blank()) {
    if (records_left_ == 0) {
      records_left_ = std::max<std::int64_t>(records_wanted_, 1);
      SHERD_TRY(next_record_, writing_.lease_records(session_.site.code, records_left_));
    }
    row.find("record")->text = std::to_string(next_record_++);
    --records_left_;
  }
  SHERD_TRY(const bool good, check_new(row));
  if (!good) return {};
  return insert(step, row);
}

Result<void> EditSteps::insert(const EditStep& step, TypedRow& row) {
  const KindSpec& spec = row.spec();
  // The new row is the one that was not there before among those with its key, or with what it refers to.
  std::vector<Having> alike;
  const bool keyed = !spec.key_names().empty();
  for (const ColumnSpec& column : spec.columns) {
    if (keyed ? column.key : column.refers.has_value())
      alike.push_back({column.name, outside_text(column, *row.find(column.name))});
  }
  const auto uids = [&]() -> Result<Table> {
    return session_.store->read({session_.site.code, spec.kind, {"uid"}, {}, alike});
  };
  SHERD_TRY(const Table before, uids());
  SHERD_CHECK(writing_.insert(session_.site.code, row.table()));
  wrote_ = true;
  rows_.forget(spec.kind);
  SHERD_TRY(const Table after, uids());
  const auto& old = before.find("uid")->words();
  const Column& now = *after.find("uid");
  for (std::size_t i = 0; i < now.size(); ++i) {
    const std::string uid(now.text(i));
    if (std::ranges::find(old, uid) != old.end()) continue;
    touch(spec.name, uid, false);
    if (!step.as.empty()) made_[step.as] = std::pair(spec.kind, uid);
  }
  return {};
}

Result<void> EditSteps::set(const EditStep& step) {
  const auto kind = kind_of(step);
  if (!kind) return {};
  SHERD_TRY(const auto row, find(step, *kind));
  if (!row) return {};
  return set_cell(step, *kind, *row);
}

Result<bool> EditSteps::as_seen(const EditStep& step, Kind kind, const FoundRow& row, const std::string& now,
                                const std::string& value) {
  const bool own = step.row.starts_with('@');
  if (!step.seen && !own && !overwrite_) {
    problem(step.column, step.value,
            {.code = "seen_missing",
             .message = "the step does not say which value was seen",
             .hint = "give seen as rows gave it; blank where the cell was blank"});
    return false;
  }
  if (!step.seen || *step.seen == now || now == value) return true;
  EditConflict conflict{at_, step.kind, row.uid, row.row.key_text(), step.column, *step.seen, now, value, {}, {}};
  SHERD_TRY(const auto author, rows_.author(kind, row, step.column));
  if (author) {
    conflict.who = author->who;
    conflict.at = author->at;
  }
  response_.conflicts.push_back(std::move(conflict));
  return false;
}

Result<bool> EditSteps::key_may_change(const FoundRow& row, const TypedRow& after, const ColumnSpec& column) {
  if (!column.key) return true;
  const std::string key = after.key_text();
  SHERD_TRY(const bool taken, rows_.key_is_taken(after, row.uid));
  if (taken) {
    problem(column.name, key,
            {.code = "already_there", .message = after.spec().one + " \"" + key + "\" is in the record already"});
    return false;
  }
  if (after.spec().key_names().size() > 1) return true;
  SHERD_TRY(const auto namers, rows_.who_names(after.spec().kind, row.row.key_text()));
  if (namers.empty()) return true;
  problem(column.name, key,
          {.code = "still_used",
           .message = after.spec().one + " \"" + row.row.key_text() + "\" is named by " + namers_text(namers),
           .hint = "renaming carries them along: rename"});
  return false;
}

Result<void> EditSteps::set_cell(const EditStep& step, Kind kind, const FoundRow& row) {
  const ColumnSpec* column = column_of(row.row.spec().columns, step.column);
  if (column == nullptr) return {};
  if (column->key && column->name == "record" && trim(step.value).empty()) {
    problem(step.column, "", {.code = "missing_value", .message = "a line keeps its record number"});
    return {};
  }
  SHERD_TRY(const auto reading, read(*column, step.value));
  if (!reading) return {};
  TypedRow after = row.row;
  *after.find(column->name) = reading->value;
  TypedValue* certainty = after.find(certainty_name(*column));
  if (certainty != nullptr) certainty->text = reading->doubt ? std::string(word(*reading->doubt)) : std::string{};
  const std::string now = outside_text(*column, *row.row.find(column->name));
  const std::string value = outside_text(*column, reading->value);
  SHERD_TRY(const bool seen, as_seen(step, kind, row, now, value));
  if (!seen) return {};
  if (now != value) {
    SHERD_TRY(const bool may, key_may_change(row, after, *column));
    if (!may) return {};
  }
  const auto before = row.row.broken_rules();
  bool good = true;
  for (const exchange::Problem& broken : after.broken_rules()) {
    const bool old = std::ranges::any_of(before, [&](const exchange::Problem& p) { return p.code == broken.code; });
    if (broken.code == kUnfinished || old) {
      note(broken.column, "", broken.message);
    } else {
      problem(broken);
      good = false;
    }
  }
  if (!good) return {};
  touch(step.kind, row.uid, false);
  for (const ColumnSpec& each : row.row.spec().columns) {  // the cell, and its certainty
    const std::string from = outside_text(each, *row.row.find(each.name)),
                      to = outside_text(each, *after.find(each.name));
    if (from == to) continue;
    SHERD_CHECK(writing_.edit(session_.site.code, kind, {row.uid, each.name, from, to}));
    wrote_ = true;
  }
  if (column->key) rows_.forget(kind);
  return {};
}

Result<void> EditSteps::remove_namers(const EditStep& step, Kind kind, const std::string& key) {
  if (key.empty() || kind_spec(kind).key_names().size() > 1) return {};
  SHERD_TRY(const auto namers, rows_.who_names(kind, key));
  std::vector<Namers> left;
  for (const Namers& one : namers) {
    const std::string name = kind_spec(one.kind).name;
    if (std::ranges::find(step.with, name) == step.with.end()) {
      left.push_back(one);
      continue;
    }
    for (const std::string& uid : one.uids) {
      SHERD_TRY(const auto row, rows_.by_uid(one.kind, uid));
      if (!row) continue;  // named it twice
      SHERD_CHECK(remove_namers(step, one.kind, row->row.key_text()));
      SHERD_CHECK(writing_.remove(session_.site.code, one.kind, uid));
      rows_.forget(one.kind);
      touch(name, uid, true);
    }
  }
  if (left.empty()) return {};
  std::vector<std::string> kinds;
  for (const Namers& one : left) {
    if (std::ranges::find(kinds, kind_spec(one.kind).name) == kinds.end()) kinds.push_back(kind_spec(one.kind).name);
  }
  problem("row", step.row,
          {.code = "still_used",
           .message = kind_spec(kind).one + " \"" + shortened(key, 60) + "\" is named by " + namers_text(left),
           .hint = "alter or remove these first, or remove them with it: with " + join(kinds, ",")});
  return {};
}

Result<void> EditSteps::remove(const EditStep& step) {
  const auto kind = kind_of(step);
  if (!kind) return {};
  SHERD_TRY(const auto row, find(step, *kind));
  if (!row) return {};
  const std::string changed = std::to_string(row->changed);
  if (step.seen && !step.seen->empty() && *step.seen != changed) {
    EditConflict conflict{at_, step.kind, row->uid, row->row.key_text(), {}, *step.seen, changed, {}, {}, {}};
    SHERD_TRY(const auto author, rows_.author(*kind, *row, {}));
    if (author) {
      conflict.who = author->who;
      conflict.at = author->at;
    }
    response_.conflicts.push_back(std::move(conflict));
    return {};
  }
  const std::size_t before = response_.problems.size();
  SHERD_CHECK(remove_namers(step, *kind, row->row.key_text()));
  if (response_.problems.size() > before) return {};
  SHERD_CHECK(writing_.remove(session_.site.code, *kind, row->uid));
  wrote_ = true;
  rows_.forget(*kind);
  touch(step.kind, row->uid, true);
  return {};
}

}  // namespace sherd::desk
