#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"
#include "model/record_more.h"
#include "model/words.h"

namespace sherd::desk {

/// One ware of a scan: "grey-1 M", "shell-3? 12", "green-1 5 120g".
struct ScannedWare {
  std::string ware;
  std::optional<Certainty> certainty;
  std::optional<Amount> amount;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
};
/// The wares of a scan, parted by ";" or line breaks. What stands behind a ware's name and is no amount stays with the
/// name.
std::vector<ScannedWare> scanned_wares(std::string_view text);

struct ScanRequest {
  std::string store, context, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ScanRequest::store, argument("the store"));
    v.field("context", &ScanRequest::context, argument("the context that was scanned"));
    v.field("site", &ScanRequest::site, option("the site, where the store holds several"));
  }
};

/// What the scan said of a ware, what the lines hold of it, and what is left: below zero where the lines hold more. A
/// ware that the scan did not name has no `said` of any kind.
struct ScanWare {
  std::string ware;
  bool said = false, known = false;  ///< known: a fabric of the series
  std::optional<Certainty> certainty;
  std::optional<Amount> amount;
  std::optional<std::int64_t> count, count_recorded, count_left;
  std::optional<Weight> weight, weight_recorded, weight_left;
  std::int64_t lines = 0;

  template <class V>
  static void fields(V& v) {
    v.field("ware", &ScanWare::ware);
    v.field("said", &ScanWare::said);
    v.field("known", &ScanWare::known);
    v.field("certainty", &ScanWare::certainty);
    v.field("amount", &ScanWare::amount);
    v.field("count", &ScanWare::count);
    v.field("count_recorded", &ScanWare::count_recorded);
    v.field("count_left", &ScanWare::count_left);
    v.field("weight_g", &ScanWare::weight);
    v.field("weight_recorded_g", &ScanWare::weight_recorded);
    v.field("weight_left_g", &ScanWare::weight_left);
    v.field("lines", &ScanWare::lines);
  }
};

struct ScanResponse : Reply {
  std::string uid;
  Scan scan;
  std::vector<ScanWare> wares;
  ScanWare total;  ///< of the whole context, by the scan's own count and weight; `ware` is ""

  template <class V>
  static void fields(V& v) {
    v.field("uid", &ScanResponse::uid);
    v.field("scan", &ScanResponse::scan);
    v.field("wares", &ScanResponse::wares);
    v.field("total", &ScanResponse::total);
  }
};

/// A context's scan against its lines, ware by ware: what is not yet accounted for. Errors: `no_scan`, those of the
/// store.
Result<ScanResponse> show_scan(const ScanRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
