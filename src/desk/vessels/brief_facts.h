#pragma once

#include <string>
#include <utility>
#include <vector>

#include "desk/vessels/piece_rows.h"
#include "model/record_vessels.h"

namespace sherd::desk {

/// What a brief says of one drawing.
struct BriefFacts {
  std::string title, subtitle;
  std::vector<std::pair<std::string, std::string>> facts;  ///< label and value; "" where the record is silent
  std::vector<std::string> asked;                          ///< what is to be shown, in sentences
  std::vector<std::string> missing;
};

/// `piece` may be nullptr: the drawing's own line is all that is known then. `scale`: of the printed drawing.
BriefFacts brief_facts(const Drawing& drawing, const PieceRecord* piece, const RecordLine* line, double scale);

/// "combing, outside, 215 to 222 mm above the base, 4 lines"
std::string band_words(const Band& band);

}  // namespace sherd::desk
