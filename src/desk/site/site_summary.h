#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "methods/quantify/result.h"
#include "model/site.h"

namespace sherd::desk {

struct SiteRequest {
  std::string store, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SiteRequest::store, argument("the store"));
    v.field("site", &SiteRequest::site, option("the site, where the store holds several"));
  }
};

/// The newest change, as the sheet shows it.
struct LastChange {
  std::int64_t seq = 0;
  std::string at, who, command;

  template <class V>
  static void fields(V& v) {
    v.field("seq", &LastChange::seq);
    v.field("at", &LastChange::at);
    v.field("who", &LastChange::who);
    v.field("command", &LastChange::command);
  }
};

struct SiteResponse : Reply {
  Site sheet;
  std::map<std::string, std::int64_t> tables;  ///< rows a table
  quantify::TallyRow total;
  std::int64_t lines = 0, checked = 0;
  std::int64_t contexts_with_pottery = 0;
  std::optional<LastChange> last_change;

  template <class V>
  static void fields(V& v) {
    v.field("sheet", &SiteResponse::sheet);
    v.field("tables", &SiteResponse::tables);
    v.field("total", &SiteResponse::total);
    v.field("lines", &SiteResponse::lines);
    v.field("checked", &SiteResponse::checked);
    v.field("contexts_with_pottery", &SiteResponse::contexts_with_pottery);
    v.field("last_change", &SiteResponse::last_change);
  }
};

/// The project sheet and what the record holds so far.
Result<SiteResponse> summarise_site(const SiteRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
