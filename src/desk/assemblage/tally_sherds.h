#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/delivery.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/quantify/result.h"

namespace sherd::desk {

struct TallyRequest : DeliveryRequest {
  std::string store, site, measure, table;
  std::vector<std::string> by, where;
  std::optional<std::int64_t> intervals, seed;

  template <class V>
  static void fields(V& v) {
    v.field("store", &TallyRequest::store,
            argument("the store, or a table: a row a line, with columns count, weight_g, vessels, rim_percent"));
    v.field("table", &TallyRequest::table,
            option("the table itself as text, with commas or tabs, in place of the store's record"));
    v.field("by", &TallyRequest::by,
            required_option("the fields to count by, with commas: fabric,context.phase; also fabric.ware_group, "
                            "extra.COLUMN; of a table its columns"));
    v.field("where", &TallyRequest::where, option("FIELD=VALUE: count these lines only; may be given again"));
    v.field("intervals", &TallyRequest::intervals, option("95 % intervals from this many resamples"));
    v.field("seed", &TallyRequest::seed, option("the seed of the resampling (1 unless said)"));
    v.field("measure", &TallyRequest::measure,
            option("of the figures: count, weight_g, vessels or eve (count unless said)"));
    delivery_fields(v);
    v.field("site", &TallyRequest::site, option("the site, where the store holds several"));
  }
};

/// A row of the tally under the names of its fields.
struct TallyResponseRow : quantify::TallyRow {
  std::vector<std::pair<std::string, std::optional<std::string>>> group;

  template <class V>
  static void fields(V& v) {
    v.flatten(&TallyResponseRow::group);
    quantify::TallyRow::fields(v);
  }
};

struct TallyResponse : Reply, Delivered {
  std::vector<std::string> by;
  std::vector<TallyResponseRow> rows;
  quantify::TallyRow total;
  std::optional<quantify::IntervalNote> intervals;

  template <class V>
  static void fields(V& v) {
    v.field("by", &TallyResponse::by);
    v.field("rows", &TallyResponse::rows);
    v.field("total", &TallyResponse::total);
    v.field("intervals", &TallyResponse::intervals);
    delivered_fields(v);
  }
};

/// The four measures by any fields, of a store or of a plain table. Errors: `unknown_field` (with "did you mean"),
/// `bad_where`, `bad_choice`, of a table `no_measure`, `not_a_number`, `negative_count`; those of `deliver` and of
/// stores and files.
Result<TallyResponse> tally_sherds(const TallyRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
