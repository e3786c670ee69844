#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Pages and completions that an installed program brings along, made from the table of use cases.
namespace sherd::cli {

/// One option or argument of a command.
struct CommandField {
  std::string spelling;  ///< "--keep-good", or "STORE" of an argument
  std::string value;     ///< what stands behind it, "ROWS"; "" of a flag and of an argument
  std::string help;
  bool is_argument = false;
  bool is_required = false;
};

struct CommandPage {
  std::string name, help;
  std::vector<CommandField> fields;

  /// "STORE FILE --as AS [--dry-run]"
  std::string usage() const;
};

/// Of every command, in the order of the table.
std::vector<CommandPage> command_pages();

/// What each command takes beside its own.
std::vector<CommandField> common_fields();

/// The manual page sherdwright(1), for man(7).
std::string manual_page(std::string_view version);

/// Completions: of commands, of their options, of files behind them.
std::string bash_completion();
std::string zsh_completion();
std::string fish_completion();

}  // namespace sherd::cli
