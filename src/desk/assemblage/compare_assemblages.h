#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/assemblage/compare_answer.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct CompareRequest {
  std::string store, site, how, rows, columns, measure;
  std::vector<std::string> where, aside, beside, merge, dates, impossible;
  std::string linkage, distance, groups, layer, zeros, method;
  std::optional<std::int64_t> cut, axes, resamples, seed;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CompareRequest::store,
            argument("the store, or a table: first column the label of the assemblage, the others amounts"));
    v.field("how", &CompareRequest::how,
            required_option("ordination, similarity, order, diversity, clusters, difference or distance"));
    v.field("rows", &CompareRequest::rows,
            option("of a store: the field whose values are compared (context unless said)"));
    v.field(
        "columns", &CompareRequest::columns,
        option("of a store: the field of the types (fabric unless said); distance: the table's column of distances"));
    v.field("measure", &CompareRequest::measure,
            option("of a store: count, weight_g, vessels or eve (count unless said); distance: the table's column of "
                   "amounts"));
    v.field("where", &CompareRequest::where,
            option("FIELD=VALUE: lines of the store that meet it; may be given again"));
    v.field("aside", &CompareRequest::aside, option("a column of the table that holds no amounts; may be given again"));
    v.field("beside", &CompareRequest::beside,
            option("ordination: a row that is placed on the axes without making them; may be given again"));
    v.field("merge", &CompareRequest::merge, option("A+B: these types are counted as one; may be given again"));
    v.field("dates", &CompareRequest::dates,
            option("ordination: the table's column of years, or those of earliest and latest, to date the other rows "
                   "by; may be given again"));
    v.field("axes", &CompareRequest::axes, option("ordination: axes to show (20 unless said)"));
    v.field("method", &CompareRequest::method, option("order: search (unless said) or axis"));
    v.field("linkage", &CompareRequest::linkage,
            option("clusters: average (unless said), single, complete, ward or k-means"));
    v.field("distance", &CompareRequest::distance,
            option("clusters: percent (unless said), chi-square, similarity or amounts"));
    v.field("cut", &CompareRequest::cut, option("clusters: how many; as many as lie best apart unless said"));
    v.field("groups", &CompareRequest::groups,
            option("clusters: the table's column of phases to compare with; distance: that of the mode of transport"));
    v.field("layer", &CompareRequest::layer, option("difference of a store: a third field, for log-linear models"));
    v.field("impossible", &CompareRequest::impossible,
            option("difference: COLUMN*LAYER, a pair of values that cannot exist; may be given again"));
    v.field(
        "zeros", &CompareRequest::zeros,
        option(
            "distance: places without any are left out (leave-out, unless said), or 0.5 is added to all (add-half)"));
    v.field("resamples", &CompareRequest::resamples,
            option("resamples for ellipses, stability, p and intervals (each method has its own number unless said)"));
    v.field("seed", &CompareRequest::seed, option("the seed of the resampling (1 unless said)"));
    v.field("site", &CompareRequest::site, option("the site, where the store holds several"));
  }
};

/// What was compared.
struct ComparedTable {
  std::int64_t rows = 0, columns = 0;
  double total = 0;
  std::string measure;                                 ///< "count" ...; "amount" of a table with decimals
  std::vector<std::string> empty_rows, empty_columns;  ///< left out: they hold nothing
  std::int64_t blank_lines = 0;                        ///< of a store, left out: without one of the fields

  template <class V>
  static void fields(V& v) {
    v.field("rows", &ComparedTable::rows);
    v.field("columns", &ComparedTable::columns);
    v.field("total", &ComparedTable::total);
    v.field("measure", &ComparedTable::measure);
    v.field("empty_rows", &ComparedTable::empty_rows);
    v.field("empty_columns", &ComparedTable::empty_columns);
    v.field("blank_lines", &ComparedTable::blank_lines);
  }
};

struct CompareResponse : Reply, ComparisonResult {
  std::string how;
  ComparedTable table;
  std::string caution;  ///< what the method can not say, in a sentence

  template <class V>
  static void fields(V& v) {
    v.field("how", &CompareResponse::how);
    v.field("table", &CompareResponse::table);
    v.field("caution", &CompareResponse::caution);
    comparison_fields(v);
  }
};

/// Compares assemblages of a store or of a plain table by one of seven ways: docs/methods. Errors: those of the
/// methods, `bad_how`, `bad_choice`, `not_for_this`, `no_column`, `no_row`, `label_twice`, `no_label`, `not_a_number`,
/// `negative_count`, those of files and stores.
Result<CompareResponse> compare_assemblages(const CompareRequest& request, Environment& environment,
                                            Progress& progress);

}  // namespace sherd::desk
