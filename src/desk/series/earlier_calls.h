#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct CallsRequest {
  std::string store, record, fabric, form, decoration, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CallsRequest::store, argument("the store"));
    v.field("record", &CallsRequest::record, option("of this line"));
    v.field("fabric", &CallsRequest::fabric, option("of the lines that are this fabric now, or were it once"));
    v.field("form", &CallsRequest::form, option("likewise of a form"));
    v.field("decoration", &CallsRequest::decoration, option("likewise of a decoration"));
    v.field("site", &CallsRequest::site, option("the site, where the store holds several"));
  }
};

/// A line called otherwise than before.
struct LineCall {
  std::string record, column, was, now;
  std::int64_t change = 0;
  std::string at, who, command;

  template <class V>
  static void fields(V& v) {
    v.field("record", &LineCall::record);
    v.field("column", &LineCall::column);
    v.field("was", &LineCall::was);
    v.field("now", &LineCall::now);
    v.field("change", &LineCall::change);
    v.field("at", &LineCall::at);
    v.field("who", &LineCall::who);
    v.field("command", &LineCall::command);
  }
};

/// How many lines a change called otherwise, one way.
struct CallGroup {
  std::string was, now;
  std::int64_t lines = 0, change = 0;
  std::string at, who, command;

  template <class V>
  static void fields(V& v) {
    v.field("was", &CallGroup::was);
    v.field("now", &CallGroup::now);
    v.field("lines", &CallGroup::lines);
    v.field("change", &CallGroup::change);
    v.field("at", &CallGroup::at);
    v.field("who", &CallGroup::who);
    v.field("command", &CallGroup::command);
  }
};

struct CallsResponse : Reply {
  std::vector<CallGroup> groups;  ///< of a code; oldest first
  std::vector<LineCall> calls;    ///< oldest first

  template <class V>
  static void fields(V& v) {
    v.field("groups", &CallsResponse::groups);
    v.field("calls", &CallsResponse::calls);
  }
};

/// What lines were called before they were called what they are: every change of fabric, form or decoration, and of
/// their certainties, of one line or of the lines of one code. Error `nothing_asked`; those of the store.
Result<CallsResponse> earlier_calls(const CallsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
