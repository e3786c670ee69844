#include "reference/evidence.h"

#include <optional>
#include <set>
#include <string>
#include <type_traits>

#include "base/text.h"
#include "reference/built_in.h"
#include "reference/tables.h"
#include "sherd_reference_data.h"

namespace sherd::reference {

namespace {

struct ColumnNames {
  std::vector<std::string_view> names;

  template <class M>
  void field(std::string_view name, M Evidence::*, const ColumnNote&) {
    names.push_back(name);
  }
};

/// One row of the table into one struct; columns come in the order of the field list.
struct RowReader {
  const CsvTable& table;
  std::size_t row;
  Evidence& to;
  std::size_t column = 0;
  std::optional<Error> error = {};
  bool names_something = false;
  std::string identity = {};

  Result<void> put(std::string& cell, const ColumnNote&) {
    cell = table.text(row, column);
    return {};
  }
  Result<void> put(std::optional<Year>& cell, const ColumnNote&) {
    SHERD_TRY(const auto number, table.integer(row, column));
    if (number && *number == 0) return table.bad(row, column, "is no year: 1 BC is -1");
    if (number) cell = from_historical(*number);
    return {};
  }
  template <WordList E>
  Result<void> put(std::optional<E>& cell, const ColumnNote&) {
    const std::string& text = table.text(row, column);
    cell = from_word<E>(text);
    if (!cell) return table.bad(row, column, "is not in the list");
    return {};
  }

  template <class M>
  void field(std::string_view name, M Evidence::* member, const ColumnNote& note) {
    if (error) return;
    auto done = put(to.*member, note);
    if (!done) error = std::move(done).error();
    if (note.key) identity += table.text(row, column) + "\n";
    if (note.key && name != "region" && name != "reference" && !table.text(row, column).empty()) names_something = true;
    ++column;
  }
};

bool backwards(const std::optional<Year>& from, const std::optional<Year>& to) { return from && to && *from > *to; }

/// What the row as a whole must fulfil; the text is the reason why it does not.
std::optional<std::string_view> wrong_with(const Evidence& row, const RowReader& reader) {
  if (!reader.names_something) return "names nothing that could be seen on a piece";
  if (row.reference.empty()) return "has no reference";
  if (backwards(row.earliest, row.latest) || backwards(row.full_from, row.full_to) ||
      backwards(row.earliest, row.full_from) || backwards(row.full_to, row.latest))
    return "ends before it starts";
  return std::nullopt;
}

}  // namespace

Result<std::vector<DatedRow>> evidence_from(const CsvRows& rows) {
  ColumnNames columns;
  Evidence::fields(columns);
  SHERD_TRY(const CsvTable table, CsvTable::of(rows, columns.names));
  std::vector<DatedRow> out(table.rows());
  std::set<std::string> identities;
  for (std::size_t row = 0; row < table.rows(); ++row) {
    RowReader reader{table, row, out[row].evidence};
    Evidence::fields(reader);
    if (reader.error) return fail(*std::move(reader.error));
    if (const auto wrong = wrong_with(out[row].evidence, reader)) return table.bad(row, 0, *wrong);
    if (!identities.insert(reader.identity).second) return table.bad(row, 0, "stands twice with the same reference");
  }
  return out;
}

const std::vector<DatedRow>& evidence_rows() {
  static const std::vector<DatedRow> kRows = [] {
    std::vector<DatedRow> rows = built_in("evidence", evidence_from(built_in_rows("evidence", evidence_csv)));
    for (DatedRow& row : evidence_of_marks(marks())) rows.push_back(std::move(row));
    return rows;
  }();
  return kRows;
}

}  // namespace sherd::reference
