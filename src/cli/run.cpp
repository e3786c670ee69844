#include "cli/run.h"

#include <algorithm>
#include <functional>
#include <initializer_list>
#include <memory>
#include <optional>
#include <ostream>

#include "base/text.h"
#include "cli/command_pages.h"
#include "cli/options.h"
#include "cli/print.h"
#include "cli/reference.h"
#include "cli/terminal_progress.h"
#include "cli/wanted.h"
#include "desk/frame/csv.h"
#include "desk/frame/json.h"
#include "desk/frame/schema.h"
#include "desk/use_cases.h"

namespace sherd::cli {

namespace {

constexpr std::string_view kAbout =
    "Sherdwright: from a box of sherds to a dated, measured, published assemblage.\n"
    "STORE is a file such as tanyard.sherds. Each command has its own --help.";

int exit_code(const Error& error) {
  switch (error.kind) {
    case ErrorKind::data:
      return 1;
    case ErrorKind::usage:
      return 2;
    case ErrorKind::internal:
      return 3;
    case ErrorKind::stopped:
      return 130;
  }
  return 3;
}

/// One command line being carried out.
class Runner {
 public:
  Runner(desk::Environment& environment, std::ostream& out, std::ostream& err, bool watched)
      : environment_(environment), out_(out), err_(err), watched_(watched) {}

  int refuse(const Error& error, bool json) {
    if (json) {
      out_ << desk::error_envelope(error, environment_.version) << "\n";
    } else {
      err_ << error_text(error);
    }
    return exit_code(error);
  }

  template <class UseCase>
  int carry_out(const UseCase& use_case, const typename UseCase::Request& request, const Wanted& wanted) {
    TerminalProgress progress(err_, watched_ && !wanted.quiet && !wanted.json);
    const auto response = use_case.run(request, environment_, progress);
    progress.finish();
    if (!response) return refuse(response.error(), wanted.json);
    if (wanted.json) {
      out_ << desk::envelope(*response) << "\n";
    } else if (wanted.csv) {
      const CsvRows rows = table_of(*response);
      if (rows.empty())
        return refuse({.kind = ErrorKind::usage,
                       .code = "no_table",
                       .message = "this answer is not a table",
                       .hint = "say --json"},
                      false);
      out_ << desk::csv_text(rows);
    } else {
      out_ << text_of(*response);
    }
    return report(*response, wanted);
  }

 private:
  int report(const desk::Reply& reply, const Wanted& wanted) {
    if (!wanted.json && !wanted.quiet) {
      for (const std::string& warning : reply.warnings) err_ << "warning: " << warning << "\n";
    }
    int code = 0;
    for (const Error& error : reply.errors) {
      if (!wanted.json) err_ << error_text(error);
      code = std::max(code, exit_code(error));
    }
    return code;
  }

  desk::Environment& environment_;
  std::ostream& out_;
  std::ostream& err_;
  bool watched_;
};

/// What is made from the table of commands rather than by one of them.
std::optional<std::string> page_of(const std::vector<std::string>& arguments, const std::string& version) {
  const auto is = [&](std::initializer_list<std::string> words) {
    return std::equal(arguments.begin(), arguments.end(), words.begin(), words.end());
  };
  if (is({"reference"})) return reference();
  if (is({"reference", "--man"})) return manual_page(version);
  if (is({"reference", "--bash"})) return bash_completion();
  if (is({"reference", "--zsh"})) return zsh_completion();
  if (is({"reference", "--fish"})) return fish_completion();
  if (is({"schema", "--openapi"})) return desk::openapi(version);
  if (is({"schema", "--typescript"})) return desk::typescript();
  return std::nullopt;
}

bool wants_json(const std::vector<std::string>& arguments) {
  return std::find(arguments.begin(), arguments.end(), "--json") != arguments.end();
}

}  // namespace

int run(const std::vector<std::string>& arguments, desk::Environment& environment, std::ostream& out, std::ostream& err,
        bool watched) {
  if (const auto text = page_of(arguments, environment.version)) {
    out << *text;
    return 0;
  }
  Runner runner(environment, out, err, watched);
  CommandLine line("sherdwright", kAbout, "sherdwright " + environment.version);
  Wanted wanted;
  std::function<int()> chosen;
  desk::for_each_use_case([&]<class UseCase>(const UseCase& use_case) {
    if constexpr (!desk::PageOnly<typename UseCase::Request>) {
      auto request = std::make_shared<typename UseCase::Request>();
      line.add_command(use_case.name, use_case.help, [&, request, use_case] {
        chosen = [&, request, use_case] { return runner.carry_out(use_case, *request, wanted); };
      });
      Binder<typename UseCase::Request> of_request{line, *request};
      UseCase::Request::fields(of_request);
      Binder<Wanted> of_answer{line, wanted};
      Wanted::fields(of_answer);
    }
  });
  const CommandLine::Parsed parsed = line.parse(arguments);
  if (!parsed.shown.empty()) {
    out << parsed.shown;
    return 0;
  }
  if (!parsed.chosen || !chosen) {
    return runner.refuse(
        {.kind = ErrorKind::usage, .code = "usage", .message = parsed.misused, .where = {}, .hint = parsed.hint},
        wants_json(arguments));
  }
  return chosen();
}

}  // namespace sherd::cli
