#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

/// How much of the pottery of some contexts is older than they are. Shares are of what is dated, 0..1.
struct ResidualityRow {
  std::string label, title;
  std::int64_t contexts = 0, tested = 0;  ///< tested: those with a terminus to be older than
  std::int64_t sherds = 0, dated = 0, residual = 0;
  std::optional<double> share, low95, high95;  ///< of sherds; the interval by resampling contexts
  std::optional<double> weight_share, vessels_share;
  std::int64_t judged_residual = 0, judged_intrusive = 0;  ///< sherds so judged by the specialist
  std::vector<std::string> records;

  template <class V>
  static void fields(V& v) {
    v.field("label", &ResidualityRow::label);
    v.field("title", &ResidualityRow::title);
    v.field("contexts", &ResidualityRow::contexts);
    v.field("tested", &ResidualityRow::tested);
    v.field("sherds", &ResidualityRow::sherds);
    v.field("dated", &ResidualityRow::dated);
    v.field("residual", &ResidualityRow::residual);
    v.field("share", &ResidualityRow::share);
    v.field("low95", &ResidualityRow::low95);
    v.field("high95", &ResidualityRow::high95);
    v.field("weight_share", &ResidualityRow::weight_share);
    v.field("vessels_share", &ResidualityRow::vessels_share);
    v.field("judged_residual", &ResidualityRow::judged_residual);
    v.field("judged_intrusive", &ResidualityRow::judged_intrusive);
    v.field("records", &ResidualityRow::records);
  }
};

struct Residuality {
  std::vector<ResidualityRow> rows;  ///< in the order given
  ResidualityRow total;
  std::int64_t resamples = 0;
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("residuality_rows", &Residuality::rows);
    v.field("residuality_total", &Residuality::total);
    v.field("resamples", &Residuality::resamples);
    v.field("note", &Residuality::note);
  }
};

}  // namespace sherd::compare
