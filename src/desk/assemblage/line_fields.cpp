#include "desk/assemblage/line_fields.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>
#include <unordered_map>

#include "base/text.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

struct FieldPath {
  std::string base;    ///< "context" of "context.phase"; "" for a column of the line
  std::string column;  ///< "phase"
};

const std::map<std::string, Kind>& joined_kinds() {
  static const std::map<std::string, Kind> kKinds{
      {"context", Kind::contexts}, {"fabric", Kind::fabrics}, {"form", Kind::forms}};
  return kKinds;
}

std::vector<std::string> known_fields() {
  std::vector<std::string> known = kind_spec(Kind::sherds).column_names();
  for (const auto& [base, kind] : joined_kinds()) {
    for (const std::string& column : kind_spec(kind).column_names())
      known.push_back(fmt::format("{}.{}", base, column));
  }
  return known;
}

Result<FieldPath> path_of(const std::string& field) {
  if (kind_spec(Kind::sherds).column(field) != nullptr) return FieldPath{{}, field};
  const std::size_t dot = field.find('.');
  if (dot != std::string::npos) {
    FieldPath path{field.substr(0, dot), field.substr(dot + 1)};
    if (path.base == "extra" && !path.column.empty()) return path;
    const auto joined = joined_kinds().find(path.base);
    if (joined != joined_kinds().end() && kind_spec(joined->second).column(path.column) != nullptr) return path;
  }
  std::string hint = did_you_mean(field, known_fields());
  if (hint.empty())
    hint = "known are the columns of sherds, context.COLUMN, fabric.COLUMN, form.COLUMN and extra.COLUMN";
  return fail("unknown_field", "there is no field \"" + field + "\"", hint);
}

/// The referred row's value for each line.
Result<std::unique_ptr<Column>> join_column(const Session& session, const Column& keys, const FieldPath& path) {
  const Kind kind = joined_kinds().at(path.base);
  const std::string key = kind_spec(kind).key_names().front();
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {key, path.column}, {}}));
  std::unordered_map<std::string_view, std::size_t> row_of;
  const Column& names = *table.find(key);
  const Column& values = *table.find(path.column);
  for (std::size_t row = 0; row < table.rows(); ++row) row_of.emplace(names.text(row), row);
  auto out = std::make_unique<Column>(CellType::text);
  out->reserve(keys.size());
  std::vector<std::string> texts(keys.words().size());
  for (std::size_t word = 1; word < texts.size(); ++word) {
    if (const auto found = row_of.find(keys.words()[word]); found != row_of.end())
      texts[word] = cell_text(values, found->second);
  }
  for (const std::uint32_t code : keys.codes()) out->push_text(texts[code]);
  return out;
}

std::unique_ptr<Column> extra_column(const Column& extras, const std::string& name) {
  auto out = std::make_unique<Column>(CellType::text);
  std::vector<std::string> texts(extras.words().size());
  for (std::size_t word = 1; word < texts.size(); ++word) {
    const auto object = nlohmann::json::parse(extras.words()[word], nullptr, false);
    if (object.is_object() && object.contains(name) && object[name].is_string())
      texts[word] = object[name].get<std::string>();
  }
  for (const std::uint32_t code : extras.codes()) out->push_text(texts[code]);
  return out;
}

bool has_value(const Column& column) {
  return std::any_of(column.codes().begin(), column.codes().end(), [](std::uint32_t code) { return code != 0; });
}

}  // namespace

Result<LineFields> LineFields::read(const Session& session, const std::vector<std::string>& fields,
                                    const std::vector<std::string>& always) {
  std::set<std::string> columns(always.begin(), always.end());
  std::map<std::string, FieldPath> made;
  for (const std::string& field : fields) {
    SHERD_TRY(const FieldPath path, path_of(field));
    columns.insert(path.base.empty() ? path.column : path.base);
    if (!path.base.empty()) made.emplace(field, path);
  }
  LineFields out;
  SHERD_TRY(Table lines, session.store->read({session.site.code, Kind::sherds, {columns.begin(), columns.end()}, {}}));
  out.lines_ = std::make_unique<Table>(std::move(lines));
  for (const auto& [field, path] : made) {
    const Column& base = *out.lines_->find(path.base);
    if (path.base == "extra") {
      out.made_[field] = extra_column(base, path.column);
      if (out.lines_->rows() > 0 && !has_value(*out.made_[field])) {
        return fail("unknown_field", "no line has a column \"" + path.column + "\" kept from its file",
                    "columns are spelt as in the file");
      }
    } else {
      SHERD_TRY(out.made_[field], join_column(session, base, path));
    }
  }
  return out;
}

LineFields LineFields::of(Table lines) {
  LineFields out;
  out.lines_ = std::make_unique<Table>(std::move(lines));
  return out;
}

const Column* LineFields::column(const std::string& field) const {
  if (const auto made = made_.find(field); made != made_.end()) return made->second.get();
  return lines_->find(field);
}

Result<std::vector<Condition>> conditions_of(const std::vector<std::string>& where) {
  std::vector<Condition> conditions;
  for (const std::string& text : where) {
    const std::size_t equals = text.find('=');
    if (equals == std::string::npos || equals == 0) {
      return fail(ErrorKind::usage, "bad_where", "\"" + text + "\" is not FIELD=VALUE",
                  "for example --where context.phase=3; FIELD= is blank, FIELD!=VALUE is anything else");
    }
    const bool negated = equals > 1 && text[equals - 1] == '!';
    conditions.push_back({text.substr(0, equals - (negated ? 1 : 0)), text.substr(equals + 1), negated});
  }
  return conditions;
}

Result<void> check_none_negated(const std::vector<Condition>& conditions) {
  for (const Condition& condition : conditions) {
    if (!condition.negated) continue;
    return fail(ErrorKind::usage, "bad_where", condition.field + "!=" + condition.value + " cannot be asked for here",
                "only FIELD=VALUE can");
  }
  return {};
}

namespace {

/// The values that a condition names, as A||B.
std::vector<std::string> values_of(const std::string& text) {
  std::vector<std::string> out;
  for (std::size_t from = 0;;) {
    const std::size_t bar = text.find("||", from);
    out.push_back(text.substr(from, bar == std::string::npos ? bar : bar - from));
    if (bar == std::string::npos) return out;
    from = bar + 2;
  }
}

/// Whether a line meets a condition.
class Met {
 public:
  Met(const Column& column, const Condition& condition)
      : column_(column), values_(values_of(condition.value)), negated_(condition.negated) {}

  bool operator()(std::size_t row) const {
    return (std::ranges::find(values_, cell_text(column_, row)) != values_.end()) != negated_;
  }

 private:
  const Column& column_;
  std::vector<std::string> values_;
  bool negated_;
};

}  // namespace

std::vector<std::uint32_t> chosen_lines(const LineFields& fields, const std::vector<Condition>& conditions) {
  std::vector<Met> met;
  for (const Condition& condition : conditions) met.emplace_back(*fields.column(condition.field), condition);
  std::vector<std::uint32_t> chosen;
  for (std::size_t row = 0; row < fields.lines().rows(); ++row) {
    if (std::ranges::all_of(met, [&](const Met& one) { return one(row); }))
      chosen.push_back(static_cast<std::uint32_t>(row));
  }
  return chosen;
}

}  // namespace sherd::desk
