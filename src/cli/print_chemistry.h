#pragma once

#include <string>

#include "cli/print.h"

/// The parts of the printing of `chemistry` that lie in files of their own.
namespace sherd::cli {

std::string structure_text(const desk::ChemistryResponse& response);

}  // namespace sherd::cli
