#include "cli/reference.h"

#include "cli/command_pages.h"

namespace sherd::cli {

std::string reference() {
  std::string out =
      "# Commands\n\nMade by `sherdwright reference`; do not edit. Every command also takes `--json` (one JSON "
      "document, errors too),\n"
      "`--csv` where the answer is a table, `--quiet` and `--help`. Results go to stdout, everything else to stderr. "
      "Exit codes: 0 done,\n"
      "1 the data or the request is wrong, 2 wrong usage, 3 internal, 130 stopped.\n";
  for (const CommandPage& page : command_pages()) {
    const std::string usage = page.usage();
    out += "\n## " + page.name + "\n\n" + page.help + "\n\n```\nsherdwright " + page.name +
           (usage.empty() ? "" : " " + usage) + "\n```\n\n| | |\n|---|---|\n";
    for (const CommandField& field : page.fields) {
      out += "| `" + field.spelling + (field.value.empty() ? "" : " " + field.value) + "` | " + field.help + " |\n";
    }
  }
  return out;
}

}  // namespace sherd::cli
