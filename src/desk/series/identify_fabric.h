#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct IdentifyRequest {
  std::string store, site;
  std::vector<std::string> seen, weight;
  bool only = false;
  std::optional<std::int64_t> limit;

  template <class V>
  static void fields(V& v) {
    v.field("store", &IdentifyRequest::store, argument("the store"));
    v.field("seen", &IdentifyRequest::seen,
            optional_argument("KEY=VALUE of what is seen under the lens: hardness, feel, fracture, outside, core, "
                              "inside (colours), firing, inclusion=\"quartz, common, 0.3-0.8 mm, well sorted, "
                              "subrounded\""));
    v.field("only", &IdentifyRequest::only, option("nothing is in the paste but what is named"));
    v.field("weight", &IdentifyRequest::weight,
            option("ATTRIBUTE=WEIGHT of hardness, feel, fracture, colour, firing, amount, size, sorting or rounding; "
                   "may be given again"));
    v.field("limit", &IdentifyRequest::limit, option("candidates at most (10 unless said)"));
    v.field("site", &IdentifyRequest::site, option("the site, where the store holds several"));
  }
};

/// How one thing that is seen goes with a fabric's description.
struct KeyAgreement {
  std::string key, seen, described;
  double likeness = 0, weight = 0;

  template <class V>
  static void fields(V& v) {
    v.field("key", &KeyAgreement::key);
    v.field("seen", &KeyAgreement::seen);
    v.field("described", &KeyAgreement::described);
    v.field("likeness", &KeyAgreement::likeness);
    v.field("weight", &KeyAgreement::weight);
  }
};

struct KeyCandidate {
  std::string fabric, name, ware_group;
  std::optional<double> fit;  ///< 0 to 1; null where the fabric says nothing of what is seen
  double heard = 0;           ///< share of what is seen that its description speaks to
  double share = 0;           ///< among all fabrics
  std::int64_t lines = 0;
  std::vector<KeyAgreement> agreements;
  std::vector<std::string> silent;  ///< what is seen and the fabric does not say

  template <class V>
  static void fields(V& v) {
    v.field("fabric", &KeyCandidate::fabric);
    v.field("name", &KeyCandidate::name);
    v.field("ware_group", &KeyCandidate::ware_group);
    v.field("fit", &KeyCandidate::fit);
    v.field("heard", &KeyCandidate::heard);
    v.field("share", &KeyCandidate::share);
    v.field("lines", &KeyCandidate::lines);
    v.field("agreements", &KeyCandidate::agreements);
    v.field("silent", &KeyCandidate::silent);
  }
};

struct KeyAnswer {
  std::string value;
  double share = 0;
  std::string fabric;  ///< the likeliest then

  template <class V>
  static void fields(V& v) {
    v.field("value", &KeyAnswer::value);
    v.field("share", &KeyAnswer::share);
    v.field("fabric", &KeyAnswer::fabric);
  }
};

struct KeyLook {
  std::string key;
  double bits = 0;
  std::vector<KeyAnswer> answers;

  template <class V>
  static void fields(V& v) {
    v.field("key", &KeyLook::key);
    v.field("bits", &KeyLook::bits);
    v.field("answers", &KeyLook::answers);
  }
};

struct IdentifyResponse : Reply {
  std::vector<std::string> seen;         ///< as it was understood
  std::vector<KeyCandidate> candidates;  ///< the likeliest first
  std::int64_t fabrics = 0;              ///< of the series that are not retired
  std::int64_t silent = 0;               ///< of these, say nothing of what is seen
  double bits = 0;
  std::vector<KeyLook> next;

  template <class V>
  static void fields(V& v) {
    v.field("seen", &IdentifyResponse::seen);
    v.field("candidates", &IdentifyResponse::candidates);
    v.field("fabrics", &IdentifyResponse::fabrics);
    v.field("silent", &IdentifyResponse::silent);
    v.field("bits", &IdentifyResponse::bits);
    v.field("next", &IdentifyResponse::next);
  }
};

/// Which fabric of the site's series a sherd is, by what is seen under the lens; the way is docs/methods/identify.md.
/// Errors: those of LensView; `bad_number`; those of the store.
Result<IdentifyResponse> identify_fabric(const IdentifyRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
