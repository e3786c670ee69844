#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "desk/assemblage/compare_answer.h"
#include "desk/assemblage/compare_request.h"
#include "desk/frame/delivery.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// What was compared.
struct ComparedTable {
  std::int64_t rows = 0, columns = 0;
  double total = 0;
  std::string measure;                                   ///< "count" ...; "amount" of a table with decimals
  std::vector<std::string> empty_rows, empty_columns;    ///< left out: they hold nothing
  std::int64_t blank_lines = 0;                          ///< of a store, left out: without one of the fields
  std::int64_t doubtful_lines = 0, unchecked_lines = 0;  ///< of a store, left out because it was asked for
  std::vector<std::string> merged;                       ///< columns that were counted as one
  std::vector<std::string> where;                        ///< conditions that all lines compared meet
  std::string rows_field, columns_field;                 ///< of a store
  std::vector<std::string> labels, types;                ///< rows and columns; with `cells` alone, as what follows
  std::vector<std::vector<double>> cells;

  template <class V>
  static void fields(V& v) {
    v.field("rows", &ComparedTable::rows);
    v.field("columns", &ComparedTable::columns);
    v.field("total", &ComparedTable::total);
    v.field("measure", &ComparedTable::measure);
    v.field("empty_rows", &ComparedTable::empty_rows);
    v.field("empty_columns", &ComparedTable::empty_columns);
    v.field("blank_lines", &ComparedTable::blank_lines);
    v.field("doubtful_lines", &ComparedTable::doubtful_lines);
    v.field("unchecked_lines", &ComparedTable::unchecked_lines);
    v.field("merged", &ComparedTable::merged);
    v.field("where", &ComparedTable::where);
    v.field("rows_field", &ComparedTable::rows_field);
    v.field("columns_field", &ComparedTable::columns_field);
    v.field("labels", &ComparedTable::labels);
    v.field("types", &ComparedTable::types);
    v.field("cells", &ComparedTable::cells);
  }
};

struct CompareResponse : Reply, ComparisonResult, Delivered {
  std::string how;
  ComparedTable table;
  std::string caution;  ///< what the method can not say, in a sentence

  template <class V>
  static void fields(V& v) {
    v.field("how", &CompareResponse::how);
    v.field("table", &CompareResponse::table);
    v.field("caution", &CompareResponse::caution);
    delivered_fields(v);
    comparison_fields(v);
  }
};

/// Compares assemblages of a store or of a plain table by one of the ways of compare_ways.h: docs/methods. Errors:
/// those of the methods, `bad_how`, `bad_choice`, `not_for_this`, `no_column`, `no_row`, `label_twice`, `no_label`,
/// `not_a_number`, `negative_count`, those of files and stores.
Result<CompareResponse> compare_assemblages(const CompareRequest& request, Environment& environment,
                                            Progress& progress);

}  // namespace sherd::desk
