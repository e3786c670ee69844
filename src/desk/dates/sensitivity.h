#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/year.h"

namespace sherd::desk {

struct SensitivityRequest {
  std::string store, site, settings, limits;
  std::optional<std::int64_t> years, seed;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SensitivityRequest::store, argument("the store"));
    v.field("years", &SensitivityRequest::years,
            option("contexts whose date moves by more years than this are listed (10 unless said)"));
    v.field("limits", &SensitivityRequest::limits,
            option("what holds the contexts together: none, site (unless said) or phases"));
    v.field("settings", &SensitivityRequest::settings, option("a file (JSON) with the numbers from which to move"));
    v.field("seed", &SensitivityRequest::seed, option("the seed of the draws (1 unless said)"));
    v.field("site", &SensitivityRequest::site, option("the site, where the store holds several"));
  }
};

/// The model with one of its assumptions moved.
struct Variation {
  std::string name, text;  ///< "use_life_half"; "pots last half as long in use"
  std::int64_t moved = 0;  ///< contexts whose date moves by more than the years asked for
  std::int64_t most = 0;   ///< the farthest move, in years; earlier is below 0
  std::string most_in;     ///< the context that moves so far
  bool converged = true;

  template <class V>
  static void fields(V& v) {
    v.field("name", &Variation::name);
    v.field("text", &Variation::text);
    v.field("moved", &Variation::moved);
    v.field("most", &Variation::most);
    v.field("most_in", &Variation::most_in);
    v.field("converged", &Variation::converged);
  }
};

/// How far a context's median moves under one variation; where there is only a date after which, that date.
struct Move {
  std::string variation;
  std::int64_t years = 0;
  std::optional<Year> median;

  template <class V>
  static void fields(V& v) {
    v.field("variation", &Move::variation);
    v.field("years", &Move::years);
    v.field("median", &Move::median);
  }
};

struct MovingContext {
  std::string context, printed;
  std::optional<Year> median;
  std::vector<Move> moves;  ///< by more than the years asked for

  template <class V>
  static void fields(V& v) {
    v.field("context", &MovingContext::context);
    v.field("printed", &MovingContext::printed);
    v.field("median", &MovingContext::median);
    v.field("moves", &MovingContext::moves);
  }
};

struct SensitivityResponse : Reply {
  std::int64_t years = 10, contexts = 0;  ///< contexts with a modelled date
  std::vector<Variation> variations;
  std::vector<MovingContext> moving;

  template <class V>
  static void fields(V& v) {
    v.field("years", &SensitivityResponse::years);
    v.field("contexts", &SensitivityResponse::contexts);
    v.field("variations", &SensitivityResponse::variations);
    v.field("moving", &SensitivityResponse::moving);
  }
};

/// Dates the site again with each assumption moved over a sensible range (use-life, residual share, intrusion,
/// durations, window), and tells which contexts' dates move. Errors: those of `date`.
Result<SensitivityResponse> sensitivity(const SensitivityRequest& request, Environment& environment,
                                        Progress& progress);

}  // namespace sherd::desk
