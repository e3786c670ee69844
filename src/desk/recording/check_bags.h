#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"
#include "model/words.h"

namespace sherd::desk {

/// How a bag stands. expected: on the finds list, nothing said yet; unlisted: lines or a row without an entry of the
/// finds list name it; received, missing, empty: as someone says.
enum class BagStanding { expected, received, missing, empty, unlisted };
/// What does not fit. count, weight: the lines hold more or less than the finds list says; context: lines of another
/// context than the bag's name it; lines_of_missing: a bag that is missing or empty has lines.
enum class BagTrouble { count, weight, context, lines_of_missing };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::BagStanding> {
  static constexpr std::array<std::string_view, 5> kNames{"expected", "received", "missing", "empty", "unlisted"};
};
template <>
struct Words<desk::BagTrouble> {
  static constexpr std::array<std::string_view, 4> kNames{"count", "weight", "context", "lines_of_missing"};
};
}  // namespace sherd

namespace sherd::desk {

struct ReceiveRequest {
  std::string store, box, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ReceiveRequest::store, argument("the store"));
    v.field("box", &ReceiveRequest::box, option("the bags of this box only"));
    v.field("site", &ReceiveRequest::site, option("the site, where the store holds several"));
  }
};

struct BagEntry {
  std::string bag, uid, context, box, material;
  BagStanding standing = BagStanding::expected;
  std::optional<std::int64_t> count, count_recorded;
  std::optional<Weight> weight, weight_recorded;
  std::int64_t lines = 0;
  std::vector<std::string> contexts;  ///< of its lines
  std::vector<BagTrouble> troubles;

  template <class V>
  static void fields(V& v) {
    v.field("bag", &BagEntry::bag);
    v.field("uid", &BagEntry::uid);
    v.field("context", &BagEntry::context);
    v.field("box", &BagEntry::box);
    v.field("material", &BagEntry::material);
    v.field("standing", &BagEntry::standing);
    v.field("count", &BagEntry::count);
    v.field("count_recorded", &BagEntry::count_recorded);
    v.field("weight_g", &BagEntry::weight);
    v.field("weight_recorded_g", &BagEntry::weight_recorded);
    v.field("lines", &BagEntry::lines);
    v.field("contexts", &BagEntry::contexts);
    v.field("troubles", &BagEntry::troubles);
  }
};

struct ReceiveResponse : Reply {
  std::int64_t expected = 0, received = 0, missing = 0, empty = 0, unlisted = 0, troubled = 0;
  std::vector<BagEntry> bags;

  template <class V>
  static void fields(V& v) {
    v.field("expected", &ReceiveResponse::expected);
    v.field("received", &ReceiveResponse::received);
    v.field("missing", &ReceiveResponse::missing);
    v.field("empty", &ReceiveResponse::empty);
    v.field("unlisted", &ReceiveResponse::unlisted);
    v.field("troubled", &ReceiveResponse::troubled);
    v.field("bags", &ReceiveResponse::bags);
  }
};

/// Boxes and bags against the finds list, in natural order. A bag's count and weight are compared only once lines name
/// it; a weight may differ by a fiftieth, and by 5 g (soil and labels; common practice, no source).
Result<ReceiveResponse> check_bags(const ReceiveRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
