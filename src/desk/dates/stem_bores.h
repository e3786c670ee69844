#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/dating/result_stems.h"

namespace sherd::desk {

struct StemBoresRequest {
  std::string counts;
  std::optional<std::int64_t> resamples, seed;

  template <class V>
  static void fields(V& v) {
    v.field("counts", &StemBoresRequest::counts, required_option("stems by bore in 64ths of an inch: 5=12,6=30,7=8"));
    v.field("resamples", &StemBoresRequest::resamples, option("resamples for the 95 % limits (1000 unless said)"));
    v.field("seed", &StemBoresRequest::seed, option("the seed of the resampling (1 unless said)"));
  }
};

struct StemBoresResponse : Reply {
  dating::StemBores bores;

  template <class V>
  static void fields(V& v) {
    v.field("bores", &StemBoresResponse::bores);
  }
};

/// Dates a sample of clay-pipe stems by their bores. Where no formula holds, the error `outside_validity` stands beside
/// what the table of periods says. Errors: `unreadable_counts`, those of `date_stem_bores`.
Result<StemBoresResponse> stem_bores(const StemBoresRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
