#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "desk/series/known_evidence.h"
#include "methods/dating/result_object.h"
#include "methods/dating/when.h"

/// What marks say, read from their words and looked for in the record.
namespace sherd::desk {

/// A mark as it was typed, made evidence: an observation for each mark that the text holds, each with its readings. A
/// registration dates the design, so that the piece is no earlier; a stamp dates the stamping, so that it is no later.
struct ReadMark {
  std::vector<dating::Observation> observations;
  std::vector<dating::OtherReading> readings;  ///< `observation` counts from the first of `observations`
  std::vector<dating::WhenNote> notes;
};
/// Errors: `unreadable_mark`, `impossible_mark`.
Result<ReadMark> read_as_evidence(const std::string& text);

/// The marks of a record that fit a mark or legend of which letters are lost, as its readings: each with the years of
/// the lines that bear it, as many times as there are lines.
Result<std::vector<dating::OtherReading>> marks_of_record(const Session& session, const StoreEvidence& own,
                                                          const std::vector<dating::Observation>& observations);

}  // namespace sherd::desk
