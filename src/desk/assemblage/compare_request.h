#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "desk/frame/delivery.h"

namespace sherd::desk {

struct CompareRequest : DeliveryRequest {
  std::string store, site, how, rows, columns, measure, table;
  std::vector<std::string> where, aside, beside, beside_columns, merge, dates, impossible, weights, with;
  std::string doubtful, unchecked, linkage, distance, groups, layer, zeros, method, at, from;
  std::optional<std::int64_t> cut, axes, population, resamples, seed;
  std::string share, within;
  bool cells = false;

  template <class V>
  static void fields(V& v) {  // NOLINT(readability-function-size): a list
    v.field("store", &CompareRequest::store,
            argument("the store, or a table: first column the label of the assemblage, the others amounts"));
    v.field("table", &CompareRequest::table,
            option("the table itself as text, with commas or tabs, in place of the store's record"));
    v.field("how", &CompareRequest::how,
            required_option("ordination, similarity, order, diversity, clusters, difference, distance, breakage, "
                            "residuality, joins, key-groups or sample-size"));
    v.field("rows", &CompareRequest::rows,
            option("of a store: the field whose values are compared (context unless said)"));
    v.field(
        "columns", &CompareRequest::columns,
        option("of a store: the field of the types (fabric unless said); distance: the table's column of distances"));
    v.field("measure", &CompareRequest::measure,
            option("of a store: count, weight_g, vessels or eve (count unless said); distance: the table's column of "
                   "amounts; of a store how the published assemblages count"));
    v.field("where", &CompareRequest::where,
            option("FIELD=VALUE: lines of the store that meet it; FIELD!=VALUE those that do not; may be given again"));
    v.field("doubtful", &CompareRequest::doubtful,
            option("of a store: out leaves out lines whose fabric, form or decoration, whichever is compared, is only "
                   "probable or possible (in unless said)"));
    v.field("unchecked", &CompareRequest::unchecked,
            option("of a store: out leaves out lines that nobody has checked (in unless said)"));
    v.field("with", &CompareRequest::with,
            option("of a store: a published assemblage kept in it as another row, or all; may be given again"));
    v.field("aside", &CompareRequest::aside, option("a column of the table that holds no amounts; may be given again"));
    v.field("beside", &CompareRequest::beside,
            option("ordination: a row that is placed on the axes without making them; may be given again"));
    v.field("beside_columns", &CompareRequest::beside_columns,
            option("ordination: a column likewise; may be given again"));
    v.field("merge", &CompareRequest::merge, option("A+B: these types are counted as one; may be given again"));
    v.field("dates", &CompareRequest::dates,
            option("ordination: the table's column of years, or those of earliest and latest, to date the other rows "
                   "by; may be given again; of a store: own, sequence, spot or phase, where years come from"));
    v.field("axes", &CompareRequest::axes,
            option("ordination: axes to show (20 unless said); with dates those to date by (as many as predict best)"));
    v.field("method", &CompareRequest::method, option("order: search (unless said) or axis"));
    v.field("linkage", &CompareRequest::linkage,
            option("clusters: average (unless said), single, complete, ward or k-means"));
    v.field("distance", &CompareRequest::distance,
            option("clusters: percent (unless said), chi-square, similarity or amounts"));
    v.field("cut", &CompareRequest::cut, option("clusters: how many; as many as lie best apart unless said"));
    v.field("groups", &CompareRequest::groups,
            option("clusters: the table's column of phases to compare with, of a store a field such as context.phase; "
                   "distance: the column of the mode of transport"));
    v.field("layer", &CompareRequest::layer, option("difference of a store: a third field, for log-linear models"));
    v.field("impossible", &CompareRequest::impossible,
            option("difference: COLUMN*LAYER, a pair of values that cannot exist; may be given again"));
    v.field(
        "zeros", &CompareRequest::zeros,
        option(
            "distance: places without any are left out (leave-out, unless said), or 0.5 is added to all (add-half)"));
    v.field(
        "at", &CompareRequest::at,
        option("distance: EAST,NORTH, the table's columns of coordinates; LONGITUDE,LATITUDE where they are degrees"));
    v.field("from", &CompareRequest::from,
            option("distance: EAST,NORTH of where it was made, to measure distances from"));
    v.field("weights", &CompareRequest::weights,
            option("key-groups: size=2; freshness, completeness, residual and dating likewise (each 1 unless said, 0 "
                   "leaves it out); may be given again"));
    v.field("within", &CompareRequest::within, option("sample-size: percent points (5 unless said)"));
    v.field("share", &CompareRequest::share,
            option("sample-size: percent that is expected (50, which asks most, unless said)"));
    v.field("population", &CompareRequest::population, option("sample-size: sherds there are in all"));
    v.field("resamples", &CompareRequest::resamples,
            option("resamples for ellipses, stability, p and intervals (each method has its own number unless said)"));
    v.field("seed", &CompareRequest::seed, option("the seed of the resampling (1 unless said)"));
    v.field("cells", &CompareRequest::cells, option("put the table compared into the answer"));
    delivery_fields(v);
    v.field("site", &CompareRequest::site, option("the site, where the store holds several"));
  }
};

}  // namespace sherd::desk
