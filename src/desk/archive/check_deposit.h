#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/site/check_record.h"

namespace sherd::desk {

struct DepositRequest {
  std::string store, on, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &DepositRequest::store, argument("the store"));
    v.field("on", &DepositRequest::on,
            option("the day on which to say what is overdue, YYYY-MM-DD; today unless said"));
    v.field("site", &DepositRequest::site, option("the site, where the store holds several"));
  }
};

struct DepositResponse : Reply {
  bool ready = false;  ///< nothing stands in the way of handing it over
  std::int64_t error_count = 0, warning_count = 0, note_count = 0;
  std::int64_t out = 0, boxes = 0, over = 0, deselected = 0, undecided = 0;
  std::vector<Finding> findings;

  template <class V>
  static void fields(V& v) {
    v.field("ready", &DepositResponse::ready);
    v.field("error_count", &DepositResponse::error_count);
    v.field("warning_count", &DepositResponse::warning_count);
    v.field("note_count", &DepositResponse::note_count);
    v.field("out", &DepositResponse::out);
    v.field("boxes", &DepositResponse::boxes);
    v.field("over", &DepositResponse::over);
    v.field("deselected", &DepositResponse::deselected);
    v.field("undecided", &DepositResponse::undecided);
    v.field("findings", &DepositResponse::findings);
  }
};

/// What stands in the way of handing the archive over: what is not back in its bag or has no slip, decisions that do
/// not come out, boxes over the limit, pictures without their bytes, what the repository's rules and the metadata ask
/// for and the record does not say. A finding that is an error makes the response not ok. Error `bad_day`.
Result<DepositResponse> check_deposit(const DepositRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
