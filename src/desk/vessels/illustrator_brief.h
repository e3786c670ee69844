#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/frame/environment.h"
#include "desk/frame/given_file.h"
#include "desk/frame/reply.h"
#include "desk/vessels/drawing_look.h"

namespace sherd::desk {

/// What command and page share.
struct BriefWish : DrawingLook {
  std::string store, site;
  std::vector<std::string> only;

  template <class V, class Request>
  static void brief_fields(V& v) {
    v.field("only", &Request::only,
            option("these drawings of the register (those to draw and to correct unless said); may be given again"));
    look_fields<V, Request>(v);
  }
};

struct BriefRequest : BriefWish {
  std::string out;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BriefRequest::store, argument("the store"));
    v.field("out", &BriefRequest::out, required_option("the file to write: .html, or .pdf with a sheet a drawing"));
    brief_fields<V, BriefRequest>(v);
    v.field("site", &BriefRequest::site, option("the site, where the store holds several"));
  }
};

/// The same for a page.
struct BriefsRequest : BriefWish {
  static constexpr bool kPageOnly = true;
  std::string give;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BriefsRequest::store, argument("the store"));
    v.field("give", &BriefsRequest::give, option("put into the answer, in base64: pdf (unless said) or html"));
    brief_fields<V, BriefsRequest>(v);
    v.field("site", &BriefsRequest::site, option("the site, where the store holds several"));
  }
};

struct BriefResponse : Reply {
  std::string file;
  std::vector<std::string> drawings;
  std::vector<GivenFile> documents;
  std::vector<std::string> missing;  ///< what the illustrator will ask for and the record does not say

  template <class V>
  static void fields(V& v) {
    v.field("file", &BriefResponse::file);
    v.field("drawings", &BriefResponse::drawings);
    v.field("documents", &BriefResponse::documents);
    v.field("missing", &BriefResponse::missing);
  }
};

/// The brief for whoever draws by hand: for each drawing diameter, percent, stance, features, where the sherd is, and a
/// sketch from the record where it has a section. Errors: `nothing_to_draw`, `unknown_drawing`, `unknown_format`; those
/// of look, store and file.
Result<BriefResponse> write_brief(const BriefRequest& request, Environment& environment, Progress& progress);
Result<BriefResponse> give_brief(const BriefsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
