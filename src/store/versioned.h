#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/kind_spec.h"

/// The tables whose rows are versions: a row's version is (uid, site, from_change, to_change, columns ...), the current
/// one is that where `to_change` is null. The nine kinds of the record are such tables, and so are the sheets of the
/// sites, the documents, the list of files read in and what merging copies has left open: whatever a change did can be
/// taken back by the same means.
namespace sherd::store {

struct StoredColumn {
  std::string name;    ///< canonical: weight_g
  std::string stored;  ///< the table's: weight_mg
  CellType type = CellType::text;
  const ColumnSpec* spec = nullptr;  ///< nullptr for `extra` and for columns that are no part of the record
};

struct Versioned {
  std::string table;
  std::string one;           ///< "sherd line", for sentences
  std::optional<Kind> kind;  ///< absent for tables that are no part of the record
  std::vector<StoredColumn> columns;

  /// nullptr where there is no such column.
  const StoredColumn* column(std::string_view canonical) const;
  /// `"a","b"`: the stored names in their order, quoted, since some of them are words of SQL.
  std::string quoted_columns() const;
};

const std::vector<Versioned>& versioned_tables();
const Versioned& versioned(Kind kind);
/// The sheet of a site (its only row a site has the uid kSheetUid), documents (uid: the name) and files read in
/// (uid: kind and hash).
const Versioned& site_sheets();
const Versioned& documents();
const Versioned& import_files();
/// Conflicts that merging a copy has left open (uid: the row's, the column, the copy's), and the uids by which a copy
/// knows rows that are here under another one.
const Versioned& merge_conflicts();
const Versioned& row_aliases();
/// nullptr where there is no such table.
const Versioned* versioned_named(std::string_view name);

constexpr std::string_view kSheetUid = "sheet";

std::string quoted(std::string_view name);

}  // namespace sherd::store
