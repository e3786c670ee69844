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
#include "model/year.h"

namespace sherd::desk {

/// What a page marks at a context. to_check: lines that no one has checked, in a context that is done; unfinished:
/// lines without count and weight; scan_open: the scan counted or weighed more than the lines account for;
/// scan_exceeded: the lines hold more than the scan counted.
enum class QueueFlag { to_check, unfinished, scan_open, scan_exceeded };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::QueueFlag> {
  static constexpr std::array<std::string_view, 4> kNames{"to_check", "unfinished", "scan_open", "scan_exceeded"};
};
}  // namespace sherd

namespace sherd::desk {

struct QueueRequest {
  std::string store, stage, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &QueueRequest::store, argument("the store"));
    v.field("stage", &QueueRequest::stage, option("to_do, begun or done: these contexts only"));
    v.field("site", &QueueRequest::site, option("the site, where the store holds several"));
  }
};

/// What a scan says of a context, and what of that the lines do not account for yet.
struct QueueScan {
  std::string uid, wares, comment;
  std::optional<Amount> amount;
  std::optional<std::int64_t> count, count_left;
  std::optional<Weight> weight, weight_left;
  std::optional<Year> earliest, latest;

  template <class V>
  static void fields(V& v) {
    v.field("uid", &QueueScan::uid);
    v.field("wares", &QueueScan::wares);
    v.field("amount", &QueueScan::amount);
    v.field("count", &QueueScan::count);
    v.field("weight_g", &QueueScan::weight);
    v.field("count_left", &QueueScan::count_left);
    v.field("weight_left_g", &QueueScan::weight_left);
    v.field("earliest", &QueueScan::earliest);
    v.field("latest", &QueueScan::latest);
    v.field("comment", &QueueScan::comment);
  }
};

/// A context as work. `stage`: as its recorder says; where they say nothing, begun once there are lines or a scan.
struct QueueContext {
  std::string context, uid, type, area, phase;
  Stage stage = Stage::to_do;
  bool stage_said = false;
  std::int64_t lines = 0, to_check = 0, unfinished = 0;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::optional<QueueScan> scan;
  std::vector<QueueFlag> flags;
  std::int64_t changed = 0;  ///< the last change of the context, its scan or a line
  std::string who, at;       ///< of that change

  template <class V>
  static void fields(V& v) {
    v.field("context", &QueueContext::context);
    v.field("uid", &QueueContext::uid);
    v.field("type", &QueueContext::type);
    v.field("area", &QueueContext::area);
    v.field("phase", &QueueContext::phase);
    v.field("stage", &QueueContext::stage);
    v.field("stage_said", &QueueContext::stage_said);
    v.field("lines", &QueueContext::lines);
    v.field("to_check", &QueueContext::to_check);
    v.field("unfinished", &QueueContext::unfinished);
    v.field("count", &QueueContext::count);
    v.field("weight_g", &QueueContext::weight);
    v.field("scan", &QueueContext::scan);
    v.field("flags", &QueueContext::flags);
    v.field("changed", &QueueContext::changed);
    v.field("who", &QueueContext::who);
    v.field("at", &QueueContext::at);
  }
};

struct QueueResponse : Reply {
  std::int64_t to_do = 0, begun = 0, done = 0;  ///< contexts, of all stages whatever was asked for
  std::vector<QueueContext> contexts;

  template <class V>
  static void fields(V& v) {
    v.field("to_do", &QueueResponse::to_do);
    v.field("begun", &QueueResponse::begun);
    v.field("done", &QueueResponse::done);
    v.field("contexts", &QueueResponse::contexts);
  }
};

/// The contexts in natural order of their names, each with how far its recording has got. Errors: `unknown_word`,
/// those of the store.
Result<QueueResponse> list_queue(const QueueRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
