#pragma once

#include <string>

#include "desk/assemblage/compare_answer.h"

namespace sherd::cli {

/// The parts of a comparison's text that rest on a record.
std::string text_of(const compare::Breakage& found);
std::string text_of(const compare::Residuality& found);
std::string text_of(const compare::JoinNetwork& found);
std::string text_of(const compare::KeyGroups& found);
std::string text_of(const compare::SampleSize& found);

}  // namespace sherd::cli
