#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "demo/score.h"
#include "desk/assemblage/tally_sherds.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct DemoRequest {
  std::string folder;
  std::optional<std::int64_t> seed;

  template <class V>
  static void fields(V& v) {
    v.field("folder", &DemoRequest::folder,
            optional_argument("the folder to make (demo unless said); one that an earlier demo made is made anew"));
    v.field("seed", &DemoRequest::seed, option("another seed gives another site of the same story"));
  }
};

struct DemoImport {
  std::string file, kind;
  std::int64_t rows_read = 0, rows_kept = 0, rows_refused = 0;
  std::vector<std::string> problems;

  template <class V>
  static void fields(V& v) {
    v.field("file", &DemoImport::file);
    v.field("kind", &DemoImport::kind);
    v.field("rows_read", &DemoImport::rows_read);
    v.field("rows_kept", &DemoImport::rows_kept);
    v.field("rows_refused", &DemoImport::rows_refused);
    v.field("problems", &DemoImport::problems);
  }
};

struct DemoResponse : Reply {
  std::string folder, store, site, title;
  std::vector<DemoImport> imports;
  std::int64_t check_errors = 0, check_warnings = 0, check_notes = 0;
  std::int64_t planted = 0;
  std::vector<std::string> planted_mistakes;
  std::vector<TallyResponseRow> tally;
  quantify::TallyRow total;
  std::vector<std::string> lists;
  std::string report;
  demo::Score score;  ///< the conventional dates against the true ones, which the generator kept

  template <class V>
  static void fields(V& v) {
    v.field("folder", &DemoResponse::folder);
    v.field("store", &DemoResponse::store);
    v.field("site", &DemoResponse::site);
    v.field("title", &DemoResponse::title);
    v.field("imports", &DemoResponse::imports);
    v.field("check_errors", &DemoResponse::check_errors);
    v.field("check_warnings", &DemoResponse::check_warnings);
    v.field("check_notes", &DemoResponse::check_notes);
    v.field("planted", &DemoResponse::planted);
    v.field("planted_mistakes", &DemoResponse::planted_mistakes);
    v.field("tally", &DemoResponse::tally);
    v.field("total", &DemoResponse::total);
    v.field("lists", &DemoResponse::lists);
    v.field("report", &DemoResponse::report);
    v.field("score", &DemoResponse::score);
  }
};

/// The invented site through the whole first stage of a job, by the same use cases that a user has. Errors:
/// `folder_in_use` where the folder was not made by a demo; those of the use cases.
Result<DemoResponse> make_demo(const DemoRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
