#include "cli/reference.h"

#include "base/text.h"
#include "cli/options.h"
#include "desk/use_cases.h"

namespace sherd::cli {

namespace {

/// One request's fields as a usage line and a table.
struct Page {
  std::string usage;
  std::string rows;

  template <class M, class B>
  void field(std::string_view name, M B::*, const Note& note) {
    const bool flag = std::is_same_v<M, bool>;
    std::string spelt = note.place == Place::argument ? upper(name) : option_name(name);
    if (note.place == Place::option && !flag) spelt += " " + upper(name);
    usage += note.required ? " " + spelt : " [" + spelt + "]";
    rows += "| `" + spelt + "` | " + std::string(note.help) + " |\n";
  }

  static std::string upper(std::string_view name) {
    std::string out(name);
    for (char& c : out) c = c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c;
    return out;
  }
};

}  // namespace

std::string reference() {
  std::string out =
      "# Commands\n\nMade by `sherdwright reference`; do not edit. Every command also takes `--json` (one JSON "
      "document, errors too),\n"
      "`--csv` where the answer is a table, `--quiet` and `--help`. Results go to stdout, everything else to stderr. "
      "Exit codes: 0 done,\n"
      "1 the data or the request is wrong, 2 wrong usage, 3 internal, 130 stopped.\n";
  desk::for_each_use_case([&]<class UseCase>(const UseCase& use_case) {
    if constexpr (!desk::PageOnly<typename UseCase::Request>) {
      Page page;
      UseCase::Request::fields(page);
      out += "\n## " + std::string(use_case.name) + "\n\n" + std::string(use_case.help) + "\n\n```\nsherdwright " +
             std::string(use_case.name) + page.usage + "\n```\n\n| | |\n|---|---|\n" + page.rows;
    }
  });
  return out;
}

}  // namespace sherd::cli
