#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/public/public_object.h"

namespace sherd::desk {

class PublicRecord;

/// What the picking of objects asks; shared by pick list, cards and pages.
struct PickWish {
  std::string theme, period, use;
  std::vector<std::string> records, include;
  std::optional<std::int64_t> most;

  template <class V, class Request>
  static void pick_fields(V& v) {
    v.field("theme", &Request::theme,
            option("cooking, drinking, storage, dairy, health, light, trade, making, writing, colour or mending"));
    v.field("period", &Request::period, option("Roman, medieval ..., C13, or years such as 1200-1400"));
    v.field("for", &Request::use,
            option("handling: only what may be passed round; talk (unless said): what there is most to show of"));
    v.field("record", &Request::records, option("these lines, whatever else is asked; may be given again"));
    v.field("most", &Request::most, option("at most so many (12 unless said)"));
    v.field("include", &Request::include,
            option("what is left out unless asked for by its word: human-remains, away, not-kept; may be given again"));
  }
};

struct PickListRequest : PickWish {
  std::string store, out, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &PickListRequest::store, argument("the store"));
    pick_fields<V, PickListRequest>(v);
    v.field("out", &PickListRequest::out, option("a file to write, too: .html, which prints on A4, or .csv"));
    v.field("site", &PickListRequest::site, option("the site, where the store holds several"));
  }
};

/// Why lines that would fit are not on the list.
struct PickLeftOut {
  std::string because;
  std::int64_t lines = 0;

  template <class V>
  static void fields(V& v) {
    v.field("because", &PickLeftOut::because);
    v.field("lines", &PickLeftOut::lines);
  }
};

struct ThemeName {
  std::string theme, title;
  std::int64_t lines = 0;  ///< of the record that show it

  template <class V>
  static void fields(V& v) {
    v.field("theme", &ThemeName::theme);
    v.field("title", &ThemeName::title);
    v.field("lines", &ThemeName::lines);
  }
};

struct PickListResponse : Reply {
  std::vector<PublicObject> objects;
  std::vector<PickLeftOut> left_out;
  std::vector<ThemeName> themes;
  std::int64_t fitting = 0;  ///< lines that fit, among which these were chosen
  std::string file;

  template <class V>
  static void fields(V& v) {
    v.field("objects", &PickListResponse::objects);
    v.field("left_out", &PickListResponse::left_out);
    v.field("themes", &PickListResponse::themes);
    v.field("fitting", &PickListResponse::fitting);
    v.field("file", &PickListResponse::file);
  }
};

/// Objects for a talk or a handling box with where each is and what to mind. What has most to show comes first, and no
/// ware or form again before others have had their turn. What lay with human remains is left out unless asked for by
/// its word. Errors: `unknown_theme`, `unknown_use`, `unknown_word` with "did you mean"; `unknown_period`; `no_line`;
/// `bad_number`; `unknown_format`; `nothing_fits`; those of store and file.
Result<PickListResponse> pick_list(const PickListRequest& request, Environment& environment, Progress& progress);

/// The same for whoever has read the record.
Result<PickListResponse> picked(const PublicRecord& record, const PickWish& wish);

}  // namespace sherd::desk
