#pragma once

#include <string>

namespace sherd::report {

/// @font-face rules with the shipped fonts inside them, so that a page needs nothing beside it.
const std::string& font_faces();

}  // namespace sherd::report
