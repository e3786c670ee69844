#include "desk/recording/edit_steps.h"

#include <algorithm>

#include "base/text.h"
#include "desk/recording/site_sheet.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kSheet = "sheet";
constexpr std::size_t kShownText = 80;

bool gives_number(const EditStep& step) {
  if (step.act != "add" || step.kind != "sherds") return false;
  const auto record = step.values.find("record");
  return record == step.values.end() || trim(record->second).empty();
}

}  // namespace

EditSteps::EditSteps(Session& session, Writing& writing, bool overwrite, EditsResponse& response)
    : session_(session),
      writing_(writing),
      overwrite_(overwrite),
      response_(response),
      rows_(*session.store, session.site.code),
      style_(notation::default_date_style()) {
  if (const auto named = notation::date_style_named(session.site.date_style); named) style_ = *named;
}

void EditSteps::problem(std::string_view column, std::string_view text, const Error& error) {
  response_.problems.push_back(
      {at_, std::string(column), shortened(text, kShownText), error.code, error.message, error.hint});
}

void EditSteps::problem(const exchange::Problem& broken) {
  response_.problems.push_back({at_, broken.column, broken.text, broken.code, broken.message, broken.hint});
}

void EditSteps::note(std::string_view column, std::string_view text, std::string message) {
  response_.notes.push_back({at_, std::string(column), shortened(text, kShownText), std::move(message)});
}

/// True where the row was not met before.
bool EditSteps::touch(const std::string& kind, const std::string& uid, bool removed) {
  for (Touched& row : touched_) {
    if (row.kind != kind || row.uid != uid) continue;
    row.removed = row.removed || removed;
    return false;
  }
  touched_.push_back({kind, uid, removed});
  return true;
}

Result<void> EditSteps::run(const std::vector<EditStep>& steps) {
  records_wanted_ = std::ranges::count_if(steps, gives_number);
  for (const EditStep& step : steps) {
    if (step.kind == kSheet) {
      SHERD_CHECK(set_sheet(step));
    } else if (step.act == "add") {
      SHERD_CHECK(add(step));
    } else if (step.act == "set") {
      SHERD_CHECK(set(step));
    } else if (step.act == "remove") {
      SHERD_CHECK(remove(step));
    } else {
      problem("do", step.act, {.code = "unknown_step", .message = "a step does add, set or remove"});
    }
    ++at_;
  }
  return {};
}

std::optional<Kind> EditSteps::kind_of(const EditStep& step) {
  if (const auto kind = kind_named(step.kind)) return kind;
  const auto names = kind_names();
  std::string hint = did_you_mean(step.kind, names);
  if (hint.empty()) hint = "known are: " + join(names, ", ") + ", sheet";
  problem("kind", step.kind,
          {.code = "unknown_kind", .message = "\"" + shortened(step.kind, 40) + "\" is no kind of row", .hint = hint});
  return std::nullopt;
}

const ColumnSpec* EditSteps::column_of(const std::vector<ColumnSpec>& columns, const std::string& name) {
  std::vector<std::string> names;
  for (const ColumnSpec& column : columns) {
    if (column.name == name) return &column;
    names.push_back(column.name);
  }
  std::string hint = did_you_mean(name, names);
  if (hint.empty()) hint = "there are: " + join(names, ", ");
  problem(name, "",
          {.code = "unknown_column", .message = "there is no column \"" + shortened(name, 40) + "\"", .hint = hint});
  return nullptr;
}

/// Of a column that names rows: whether that row is there. A code that stands in the series with its question mark is
/// no doubt.
Result<bool> EditSteps::is_known(const ColumnSpec& column, const std::string& typed, TypedReading& reading) {
  const Kind kind = *column.refers;
  if (reading.doubt) {
    SHERD_TRY(const bool as_typed, rows_.knows(kind, std::string(trim(typed))));
    if (as_typed) {
      reading = {{Column::kNull, std::string(trim(typed))}, std::nullopt, {}};
      return true;
    }
  }
  SHERD_TRY(const bool known, rows_.knows(kind, reading.value.text));
  if (known) return true;
  const std::string one = kind_spec(kind).one;
  SHERD_TRY(std::string hint, rows_.near(kind, reading.value.text));
  if (hint.empty()) hint = "add the " + one + " first, or in the same change";
  problem(column.name, typed,
          {.code = "unknown_" + one,
           .message = one + " \"" + shortened(reading.value.text, 40) + "\" is not in the record",
           .hint = hint});
  return false;
}

/// What was typed into a column; nothing where it is a problem.
Result<std::optional<TypedReading>> EditSteps::read(const ColumnSpec& column, const std::string& typed) {
  std::string text = typed;
  if (column.refers && typed.starts_with('@')) {  // a row added before, by the name it was given
    const auto found = made_.find(typed.substr(1));
    if (found != made_.end()) {
      if (!found->second) return std::nullopt;
      SHERD_TRY(const auto row, rows_.by_uid(found->second->first, found->second->second));
      if (row) text = row->row.key_text();
    }
  }
  auto reading = read_typed(column, text, style_);
  if (!reading) {
    problem(column.name, typed, reading.error());
    return std::nullopt;
  }
  if (reading->value.blank() && column.required && column.name != "record") {
    problem(column.name, typed,
            {.code = "missing_value", .message = column.name + " is blank", .hint = "every row needs it"});
    return std::nullopt;
  }
  if (column.refers && !reading->value.blank()) {
    SHERD_TRY(const bool known, is_known(column, text, *reading));
    if (!known) return std::nullopt;
  }
  if (!reading->taken_for.empty()) note(column.name, typed, reading->taken_for);
  return std::optional(std::move(*reading));
}

Result<std::optional<FoundRow>> EditSteps::find(const EditStep& step, Kind kind) {
  const std::string one = kind_spec(kind).one;
  if (step.row.starts_with('@')) {
    const auto made = made_.find(step.row.substr(1));
    if (made != made_.end() && !made->second) return std::nullopt;  // its own step says why it is not there
    if (made != made_.end() && made->second->first == kind) return rows_.by_uid(kind, made->second->second);
    problem("row", step.row,
            {.code = "not_found", .message = "no step before this one adds a " + one + " as " + step.row});
    return std::nullopt;
  }
  SHERD_TRY(auto found, rows_.named(kind, step.row));
  if (found.size() == 1) return std::move(found.front());
  if (found.size() > 1) {
    problem(
        "row", step.row,
        {.code = "several_rows",
         .message = counted(static_cast<long long>(found.size()), one) + " have \"" + shortened(step.row, 40) + "\"",
         .hint = "name it by its uid, which rows gives"});
    return std::nullopt;
  }
  problem("row", step.row,
          {.code = "not_found",
           .message = "the " + one + " " +
                      (step.row.empty() ? "that the step means is not named" : step.row + " is not there"),
           .hint = step.row.empty() ? "give row its uid or key" : "it may have been removed; read the record again"});
  return std::nullopt;
}

}  // namespace sherd::desk
