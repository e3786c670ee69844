#pragma once

#include <optional>
#include <string>
#include <vector>

#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/vessels/drawing_look.h"

namespace sherd::desk {

struct BriefRequest : DrawingLook {
  std::string store, out, site;
  std::vector<std::string> only;

  template <class V>
  static void fields(V& v) {
    v.field("store", &BriefRequest::store, argument("the store"));
    v.field("out", &BriefRequest::out, required_option("the file to write: .html, or .pdf with a sheet a drawing"));
    v.field("only", &BriefRequest::only,
            option("these drawings of the register (those to draw and to correct unless said); may be given again"));
    look_fields<V, BriefRequest>(v);
    v.field("site", &BriefRequest::site, option("the site, where the store holds several"));
  }
};

struct BriefResponse : Reply {
  std::string file;
  std::vector<std::string> drawings;
  std::vector<std::string> missing;  ///< what the illustrator will ask for and the record does not say

  template <class V>
  static void fields(V& v) {
    v.field("file", &BriefResponse::file);
    v.field("drawings", &BriefResponse::drawings);
    v.field("missing", &BriefResponse::missing);
  }
};

/// The brief for whoever draws by hand: for each drawing diameter, percent, stance, features, where the sherd is, and a
/// sketch from the record where it has a section. Errors: `nothing_to_draw`, `unknown_drawing`, `unknown_format`; those
/// of look, store and file.
Result<BriefResponse> write_brief(const BriefRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
