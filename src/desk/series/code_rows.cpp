#include "desk/series/code_rows.h"

#include <algorithm>
#include <cctype>

#include "base/text.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

std::string id_of(const KindSpec& spec, const TextRow& row) {
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < spec.columns.size(); ++i) {
    if (spec.columns[i].key) parts.push_back(row.cells[i]);
  }
  std::erase(parts, "");
  return parts.empty() ? row.uid : join(parts, ", ");
}

std::vector<TextRow> text_rows(const KindSpec& spec, const Table& table) {
  std::vector<TextRow> rows(table.rows());
  for (std::size_t row = 0; row < rows.size(); ++row) {
    rows[row].uid = table.find("uid")->text(row);
    for (const ColumnSpec& column : spec.columns) {
      const Column* read = table.find(column.name);
      rows[row].cells.push_back(read == nullptr ? std::string{} : cell_text(*read, row));
    }
    rows[row].id = id_of(spec, rows[row]);
  }
  return rows;
}

/// The first other row that has the same key once `place` has another value there; nullptr where there is none.
const TextRow* same_key(const KindSpec& spec, std::size_t place, const TextRow& moved,
                        const std::vector<TextRow>& standing) {
  if (!spec.columns[place].key) return nullptr;
  for (const TextRow& other : standing) {
    bool same = true;
    for (std::size_t i = 0; i < spec.columns.size(); ++i)
      same = same && (!spec.columns[i].key || i == place || other.cells[i] == moved.cells[i]);
    if (same) return &other;
  }
  return nullptr;
}

std::vector<std::string> asked_columns(const KindSpec& spec, const std::string& column, bool brief) {
  std::vector<std::string> columns = brief ? spec.key_names() : spec.column_names();
  if (std::ranges::find(columns, column) == columns.end()) columns.push_back(column);
  columns.emplace_back("uid");
  return columns;
}

/// Whether "grey-1? M" is about the code: nothing may follow it but doubt and a quantity.
bool is_about(std::string_view part, std::string_view code) {
  if (!part.starts_with(code)) return false;
  std::string_view rest = part.substr(code.size());
  while (rest.starts_with('?')) rest.remove_prefix(1);
  if (rest.empty()) return true;
  if (rest.front() != ' ') return false;
  rest = trim(rest);
  return rest.empty() || rest == "S" || rest == "M" || rest == "L" ||
         std::isdigit(static_cast<unsigned char>(rest.front())) != 0;
}

}  // namespace

std::vector<CodePlace> places_of_code(Kind kind) {
  std::vector<CodePlace> places;
  for (const KindSpec& spec : all_kinds()) {
    for (const ColumnSpec& column : spec.columns) {
      const bool by_text = kind != Kind::fabrics && column.name == code_column(kind) && spec.kind != kind;
      if (column.refers == kind || by_text) places.push_back({spec.kind, column.name});
    }
  }
  return places;
}

std::size_t column_place(Kind kind, std::string_view column) {
  const auto& columns = kind_spec(kind).columns;
  return static_cast<std::size_t>(std::ranges::find(columns, column, &ColumnSpec::name) - columns.begin());
}

Result<std::vector<TextRow>> rows_having(const Session& session, Kind kind, const std::string& column,
                                         const std::string& value, bool brief) {
  const KindSpec& spec = kind_spec(kind);
  SHERD_TRY(
      const Table table,
      session.store->read({session.site.code, kind, asked_columns(spec, column, brief), {}, {Having{column, value}}}));
  return text_rows(spec, table);
}

Result<TextRow> row_of_code(const Session& session, Kind kind, const std::string& code) {
  SHERD_TRY(const auto rows, rows_having(session, kind, code_column(kind), code));
  return rows.empty() ? TextRow{} : rows.front();
}

Result<std::vector<std::string>> known_codes(const Session& session, Kind kind) {
  const std::string column = code_column(kind);
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {column}, {}}));
  std::vector<std::string> codes;
  for (std::size_t row = 0; row < table.rows(); ++row) codes.emplace_back(table.columns().front().text(row));
  return codes;
}

Result<bool> is_known(const Session& session, Kind kind, const std::string& code) {
  SHERD_TRY(const TextRow row, row_of_code(session, kind, code));
  if (!row.id.empty() || kind != Kind::decorations || code.empty()) return !row.id.empty();
  SHERD_TRY(const auto lines, rows_having(session, Kind::sherds, code_column(kind), code, true));
  return !lines.empty();
}

Result<TextRow> must_know(const Session& session, Kind kind, const std::string& code) {
  SHERD_TRY(const bool there, is_known(session, kind, code));
  if (there) return row_of_code(session, kind, code);
  SHERD_TRY(const auto known, known_codes(session, kind));
  return fail("unknown_code", "the series has no " + kind_spec(kind).one + " \"" + code + "\"",
              did_you_mean(code, known));
}

std::string with_code_renamed(const std::string& wares, const std::string& from, const std::string& into) {
  std::vector<std::string> parts;
  for (const std::string_view part : split(wares, ';')) {
    const std::string_view plain = trim(part);
    if (!is_about(plain, from)) {
      parts.emplace_back(part);
      continue;
    }
    const auto start = static_cast<std::size_t>(plain.data() - part.data());
    parts.push_back(std::string(part.substr(0, start)) + into + std::string(part.substr(start + from.size())));
  }
  return join(parts, ";");
}

Result<void> CodeMove::plan(CodePlan& plan, std::vector<CodeClash>& clashes) {
  for (const CodePlace& place : places_of_code(kind_)) {
    if (place.kind != Kind::fabrics || options_.variants) SHERD_CHECK(follow(place, plan, clashes));
  }
  if (kind_ == Kind::fabrics) SHERD_CHECK(follow_scans(plan));
  return {};
}

void CodeMove::meet(const CodePlace& place, const TextRow& row, const TextRow& other, CodePlan& plan,
                    std::vector<CodeClash>& clashes) const {
  const KindSpec& spec = kind_spec(place.kind);
  bool differ = false;
  for (std::size_t i = 0; i < spec.columns.size(); ++i) {
    if (spec.columns[i].name == place.column || row.cells[i] == other.cells[i]) continue;
    differ = true;
    clashes.push_back({spec.name, row.id, spec.columns[i].name, row.cells[i], other.cells[i]});
  }
  if (!differ || options_.drop) plan.remove(place.kind, row.uid, row.id);
}

Result<void> CodeMove::follow(const CodePlace& place, CodePlan& plan, std::vector<CodeClash>& clashes) {
  const KindSpec& spec = kind_spec(place.kind);
  const std::size_t column = column_place(place.kind, place.column);
  const bool key = spec.columns[column].key;
  std::vector<TextRow> standing;
  if (key) {
    SHERD_TRY(standing, rows_having(session_, place.kind, place.column, into_));
  }
  for (const std::string& from : from_) {
    SHERD_TRY(const std::vector<TextRow> moving, rows_having(session_, place.kind, place.column, from, !key));
    for (const TextRow& row : moving) {
      if (const TextRow* other = same_key(spec, column, row, standing)) {
        meet(place, row, *other, plan, clashes);
        continue;
      }
      plan.set(place.kind, row.uid, row.id, place.column, from, into_);
      if (key) standing.push_back(row);
    }
  }
  return {};
}

Result<void> CodeMove::follow_scans(CodePlan& plan) {
  SHERD_TRY(const Table scans,
            session_.store->read({session_.site.code, Kind::scans, {"context", "wares", "uid"}, {}}));
  for (std::size_t row = 0; row < scans.rows(); ++row) {
    const std::string was(scans.find("wares")->text(row));
    std::string now = was;
    for (const std::string& from : from_) now = with_code_renamed(now, from, into_);
    plan.set(Kind::scans, std::string(scans.find("uid")->text(row)), std::string(scans.find("context")->text(row)),
             "wares", was, now);
  }
  return {};
}

}  // namespace sherd::desk
