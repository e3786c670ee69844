#pragma once

#include <string>

namespace sherd::cli {

/// The reference page of all commands, in Markdown, made from the table of use cases: docs/commands.md.
std::string reference();

}  // namespace sherd::cli
