#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/recording/apply_edits.h"

namespace sherd::desk {

struct KeyAnswersRequest {
  std::string store, context, by, bag, file, change, site;
  std::optional<std::int64_t> key;
  std::vector<std::string> answers;

  template <class V>
  static void fields(V& v) {
    v.field("store", &KeyAnswersRequest::store, argument("the store"));
    v.field("answers", &KeyAnswersRequest::answers,
            optional_argument(
                "PICTURE:PIECES, PICTURE:PIECES:PART or PICTURE:PIECES:PART:GRAMS, any number of them; picture "
                "0 is none of them; parts R, B, F and H, or in words"));
    v.field("context", &KeyAnswersRequest::context, option("where the pieces come from"));
    v.field("by", &KeyAnswersRequest::by, required_option("who answered: initials or a name"));
    v.field("bag", &KeyAnswersRequest::bag, option("the bag that they lie in"));
    v.field("from_file", &KeyAnswersRequest::file,
            option("a CSV of answers: picture, pieces, and as known context, bag, part, grams, noticed"));
    v.field("key", &KeyAnswersRequest::key, option("the number at the foot of the key (the newest unless said)"));
    v.field("change", &KeyAnswersRequest::change,
            option("the change's identity, so that the same one is not made twice"));
    v.field("site", &KeyAnswersRequest::site, option("the site, where the store holds several"));
  }
};

/// Answers of volunteers as lines of the record: fabric as the key has it, possible; picture 0 as the provisional
/// fabric `unknown`. Nobody has checked them, so that each stands as still to check. Errors: `nothing_answered`,
/// `bad_answer`, `no_picture`, `no_context`, `no_key`; those of `edits` and of the file.
Result<EditsResponse> take_answers(const KeyAnswersRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
