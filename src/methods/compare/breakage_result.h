#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/statistics/result.h"

namespace sherd::compare {

/// How pots of a row are broken. Null where not recorded.
struct BreakageRow {
  std::string label;
  std::int64_t lines = 0;
  std::optional<std::int64_t> count, vessels;
  std::optional<double> weight_g, eve;
  std::optional<double> mean_weight_g;  ///< of a sherd
  std::optional<double> brokenness;     ///< sherds over EVE
  std::optional<double> completeness;   ///< EVE over vessels
  std::optional<statistics::Interval> mean_weight_95, brokenness_95, completeness_95;
  std::int64_t condition_recorded = 0, abraded = 0;  ///< sherds
  std::optional<double> abraded_share;               ///< of those whose condition is recorded, 0..1
  std::optional<double> rim_diameter_mm;             ///< mean of measured rims
  std::int64_t rims_measured = 0;

  template <class V>
  static void fields(V& v) {
    v.field("label", &BreakageRow::label);
    v.field("lines", &BreakageRow::lines);
    v.field("count", &BreakageRow::count);
    v.field("weight_g", &BreakageRow::weight_g);
    v.field("vessels", &BreakageRow::vessels);
    v.field("eve", &BreakageRow::eve);
    v.field("mean_weight_g", &BreakageRow::mean_weight_g);
    v.field("mean_weight_95", &BreakageRow::mean_weight_95);
    v.field("brokenness", &BreakageRow::brokenness);
    v.field("brokenness_95", &BreakageRow::brokenness_95);
    v.field("completeness", &BreakageRow::completeness);
    v.field("completeness_95", &BreakageRow::completeness_95);
    v.field("condition_recorded", &BreakageRow::condition_recorded);
    v.field("abraded", &BreakageRow::abraded);
    v.field("abraded_share", &BreakageRow::abraded_share);
    v.field("rim_diameter_mm", &BreakageRow::rim_diameter_mm);
    v.field("rims_measured", &BreakageRow::rims_measured);
  }
};

struct Breakage {
  std::vector<BreakageRow> rows;
  BreakageRow total;
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("breakage_rows", &Breakage::rows);
    v.field("breakage_total", &Breakage::total);
    v.field("note", &Breakage::note);
  }
};

}  // namespace sherd::compare
