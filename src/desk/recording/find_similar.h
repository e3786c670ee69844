#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/record.h"

namespace sherd::desk {

struct SimilarRequest {
  std::string store, fabric, form, part, decoration, record, site;
  std::optional<std::int64_t> limit;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SimilarRequest::store, argument("the store"));
    v.field("fabric", &SimilarRequest::fabric, option("the line's fabric"));
    v.field("form", &SimilarRequest::form, option("its form"));
    v.field("part", &SimilarRequest::part, option("its part"));
    v.field("decoration", &SimilarRequest::decoration, option("its decoration"));
    v.field("record", &SimilarRequest::record, option("or its record number: what it is comes from the line"));
    v.field("limit", &SimilarRequest::limit, option("at most so many lines (10 unless said)"));
    v.field("site", &SimilarRequest::site, option("the site, where the store holds several"));
  }
};

/// An earlier line and in what it is alike beside its fabric.
struct SimilarLine {
  std::string uid;
  std::vector<std::string> alike;  ///< form, part, decoration
  RecordLine line;

  template <class V>
  static void fields(V& v) {
    v.field("uid", &SimilarLine::uid);
    v.field("alike", &SimilarLine::alike);
    v.field("line", &SimilarLine::line);
  }
};

struct SimilarResponse : Reply {
  std::string fabric, form, part, decoration;  ///< what was looked for
  std::int64_t of_fabric = 0;                  ///< lines of the fabric
  std::int64_t contexts = 0;                   ///< that they lie in
  std::int64_t alike_in_all = 0;               ///< those that agree in everything that was said
  std::optional<double> usual_weight_g;        ///< median weight of a sherd among these, of five or more
  std::vector<SimilarLine> lines;

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &SimilarResponse::fabric);
    v.field("form", &SimilarResponse::form);
    v.field("part", &SimilarResponse::part);
    v.field("decoration", &SimilarResponse::decoration);
    v.field("of_fabric", &SimilarResponse::of_fabric);
    v.field("contexts", &SimilarResponse::contexts);
    v.field("alike_in_all", &SimilarResponse::alike_in_all);
    v.field("usual_weight_g", &SimilarResponse::usual_weight_g);
    v.field("lines", &SimilarResponse::lines);
  }
};

/// Lines recorded before that are like this one: of its fabric, those that agree in most of form, decoration and part
/// first, among these the newest first. Errors: `no_fabric`, `no_record`, `bad_number`, those of the store.
Result<SimilarResponse> find_similar(const SimilarRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
