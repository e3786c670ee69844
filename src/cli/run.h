#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "desk/frame/environment.h"

namespace sherd::cli {

/// Runs one command: results to `out`, everything else to `err`. `arguments` without the program's name.
/// The answer is the exit code: 0 done, 1 the data or the request is wrong, 2 wrong usage, 3 internal, 130 stopped.
/// `watched`: err is a terminal, so progress may be shown there.
int run(const std::vector<std::string>& arguments, desk::Environment& environment, std::ostream& out, std::ostream& err,
        bool watched);

}  // namespace sherd::cli
