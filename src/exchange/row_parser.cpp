#include "exchange/row_parser.h"

#include <algorithm>
#include <utility>

#include "base/text.h"
#include "model/table.h"
#include "model/words.h"
#include "notation/entry.h"

namespace sherd::exchange {

namespace {

constexpr std::size_t kShownText = 80;
constexpr std::size_t kMostCompared = 300;  ///< names of a table that are each compared with all that the record has

std::optional<std::size_t> place_of(const KindSpec& spec, std::string_view name) {
  for (std::size_t i = 0; i < spec.columns.size(); ++i) {
    if (spec.columns[i].name == name) return i;
  }
  return std::nullopt;
}

bool may_be_provisional(Kind kind) { return kind == Kind::contexts || kind == Kind::fabrics || kind == Kind::forms; }

}  // namespace

RowParser::RowParser(const KindSpec& spec, const HeadingPlan& plan, const CellStyle& style,
                     std::map<Kind, NameSet>& known, bool accept_unknown, const StoredRows* stored)
    : spec_(spec),
      plan_(plan),
      style_(style),
      known_(known),
      accept_unknown_(accept_unknown),
      stored_(stored),
      present_(spec.columns.size(), false),
      read_(spec.columns.size(), false) {
  for (const PlannedColumn& column : plan.columns) {
    slots_.push_back(*place_of(spec, column.spec->name));
    present_[slots_.back()] = true;
    read_[slots_.back()] = !column.sources.empty();
    certainty_.push_back(place_of(spec, column.spec->name + "_certainty"));
    if (certainty_.back()) present_[*certainty_.back()] = true;
  }
}

void RowParser::complain(std::string_view column, std::string_view text, const Error& error) {
  problems_.push_back({0, {}, std::string(column), error.code, shortened(text, kShownText), error.message, error.hint});
}

std::string_view RowParser::text_of(const PlannedColumn& column, const SheetRow& row) {
  const auto cell = [&](std::size_t source) {
    if (source >= row.cells.size()) return std::string_view{};
    const Cell& found = row.cells[source];
    if (!found.problem.empty()) {
      complain(column.spec->name, found.text, {.code = "unusable_cell", .message = std::string(found.problem)});
    }
    return trim(found.text);
  };
  if (column.sources.empty()) return {};
  if (column.sources.size() == 1) return cell(column.sources.front());
  std::vector<std::string> parts;
  for (const std::size_t source : column.sources) {
    if (const std::string_view part = cell(source); !part.empty()) parts.emplace_back(part);
  }
  return keep(join(parts, column.separator));
}

/// "did you mean", for the first unknown names of a table: with all of them the time would grow with the product of the
/// table's names and the record's.
std::string RowParser::near_name(Kind kind, std::string_view name) {
  const std::pair key(kind, std::string(name));
  const auto found = near_.find(key);
  if (found != near_.end()) return found->second;
  if (near_.size() >= kMostCompared) return {};
  return near_[key] = did_you_mean(name, known_[kind].list());
}

void RowParser::check_name(const ColumnSpec& spec, std::string_view name) {
  const Kind kind = *spec.refers;
  NameSet& names = known_[kind];
  if (names.has(name)) return;
  const bool provisional = accept_unknown_ && may_be_provisional(kind);
  row_unknown_.emplace_back(kind, name);
  if (provisional) return;
  const std::string one = kind_spec(kind).one;
  std::string hint = near_name(kind, name);
  if (hint.empty() && may_be_provisional(kind)) hint = "import it first, or let --new-codes add it as provisional";
  if (hint.empty()) hint = "import the " + kind_spec(kind).name + " first";
  complain(spec.name, name,
           {.code = "unknown_" + kind_spec(kind).one,
            .message = one + " \"" + shortened(name, 40) + "\" is not in the store",
            .hint = hint});
}

void RowParser::read_code(const PlannedColumn& column, std::size_t planned, std::string_view text) {
  const ColumnSpec& spec = *column.spec;
  std::string_view code = text;
  if (certainty_[planned]) {
    const auto [stripped, certainty] = notation::read_doubt(text);
    const bool known_as_it_is = spec.refers && known_[*spec.refers].has(text);
    if (certainty && !known_as_it_is) {
      code = stripped;
      RowValue& value = values_[*certainty_[planned]];
      if (value.text.empty()) value.text = word(*certainty);
    }
  }
  if (const auto meaning = column.codes.find(std::string(code)); meaning != column.codes.end()) code = meaning->second;
  if (spec.refers) check_name(spec, code);
  values_[slots_[planned]].text = code;
}

void RowParser::read_value(const PlannedColumn& column, std::size_t slot, std::string_view text) {
  const ColumnSpec& spec = *column.spec;
  RowValue& value = values_[slot];
  const auto take = [&](auto result, auto& into) {
    if (result) {
      into = *result;
    } else {
      complain(spec.name, text, result.error());
    }
  };
  switch (spec.type) {
    case CellType::year: {
      const bool latest = spec.name.ends_with("latest") || spec.name == "not_after" || spec.name == "full_to";
      take(read_year(text, latest, style_), value.integer);
      break;
    }
    case CellType::word:
      take(read_word(text, spec.words), value.text);
      break;
    case CellType::day: {
      const auto day = read_day(text);
      if (day) {
        value.text = keep(*day);
      } else {
        complain(spec.name, text, day.error());
      }
      break;
    }
    case CellType::text:
      value.text = text;
      break;
    default:
      take(read_number(text, spec.type, column.times, style_), value.integer);
  }
}

void RowParser::read_cell(std::size_t planned, const SheetRow& row) {
  const PlannedColumn& column = plan_.columns[planned];
  const ColumnSpec& spec = *column.spec;
  std::string_view text = text_of(column, row);
  if (is_blank(text, spec.type)) text = column.blank_as ? std::string_view(*column.blank_as) : std::string_view{};
  if (text.empty()) {
    if (spec.required) {
      complain(spec.name, "",
               {.code = "missing_value",
                .message = spec.name + " is blank",
                .hint = "every row needs it; \"blank_as\" in the mapping can say what a blank means"});
    }
    return;
  }
  if (text.find('\0') != std::string_view::npos) {
    complain(spec.name, "", {.code = "bad_character", .message = "the cell holds a NUL character"});
  } else if (spec.type == CellType::text && (spec.refers || certainty_[planned])) {
    read_code(column, planned, text);
  } else if (const auto meaning = column.codes.find(std::string(text));
             !column.codes.empty() && meaning != column.codes.end()) {
    read_value(column, slots_[planned], meaning->second);
  } else {
    read_value(column, slots_[planned], text);
  }
}

void RowParser::count_unknown() {
  for (const auto& [kind, name] : row_unknown_) ++unknown_[kind][name];
}

/// A new row of an update, whose table may lack columns that the rows already there have.
void RowParser::check_new() {
  std::vector<std::string> missing;
  for (std::size_t i = 0; i < spec_.columns.size(); ++i) {
    if (spec_.columns[i].required && !present_[i]) missing.push_back(spec_.columns[i].name);
  }
  if (missing.empty()) return;
  const std::string key = key_text(spec_, values_);
  const std::string column = spec_.key_names().front();
  const std::string row = key.empty() ? "a row without " + column + " is new"
                                      : spec_.one + " \"" + shortened(key, 60) + "\" is not in the store";
  complain(
      column, key,
      {.code = "missing_value",
       .message = row + "; a new " + spec_.one + " needs " + join(missing, ", ") + ", which the table does not have",
       .hint = "correct " + column + ", or give new rows in a table that has these columns"});
}

/// Of the row as it will be.
void RowParser::check_rules() {
  const auto row = stored_ != nullptr ? stored_->find(key_text(spec_, values_)) : std::nullopt;
  if (stored_ != nullptr && !row) check_new();
  if (!row) {
    for (Problem& broken : broken_rules(spec_.kind, RowView(spec_, values_))) problems_.push_back(std::move(broken));
    return;
  }
  const std::vector<RowValue> before = stored_->values(*row);
  std::vector<RowValue> after = before;
  for (std::size_t i = 0; i < after.size(); ++i) {
    if (read_[i]) after[i] = values_[i];
  }
  auto broken = broken_rules(spec_.kind, RowView(spec_, after));
  if (broken.empty()) return;
  for (const Problem& old : broken_rules(spec_.kind, RowView(spec_, before)))
    std::erase_if(broken, [&](const Problem& now) { return now.code == old.code && now.column == old.column; });
  for (Problem& now : broken) problems_.push_back(std::move(now));
}

bool RowParser::parse(const SheetRow& row) {
  problems_.clear();
  row_unknown_.clear();
  texts_.clear();
  values_.assign(spec_.columns.size(), RowValue{Column::kNull, {}});
  for (std::size_t i = 0; i < plan_.columns.size(); ++i) read_cell(i, row);
  if (spec_.kind == Kind::relations) order_relation(values_);
  check_rules();
  return problems_.empty();
}

}  // namespace sherd::exchange
