#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/fields.h"

namespace sherd::cli {

/// A command line of sub-commands whose options come from field lists. Wraps the option library.
class CommandLine {
 public:
  CommandLine(std::string_view program, std::string_view about, std::string_view version);
  ~CommandLine();
  CommandLine(const CommandLine&) = delete;
  CommandLine& operator=(const CommandLine&) = delete;

  /// Options added from now on belong to this command; `chosen` runs when it was named and everything was understood.
  void add_command(std::string_view name, std::string_view help, std::function<void()> chosen);

  void add(std::string_view name, const Note& note, std::string* value);
  void add(std::string_view name, const Note& note, bool* value);
  void add(std::string_view name, const Note& note, std::optional<std::int64_t>* value);
  void add(std::string_view name, const Note& note, std::optional<double>* value);
  /// Values by commas or by repeating the option; commas count only where `by_commas`.
  void add(std::string_view name, const Note& note, std::vector<std::string>* values, bool by_commas);

  struct Parsed {
    bool chosen = false;  ///< a command was run
    std::string shown;    ///< help or version, for stdout
    std::string misused;  ///< what is wrong, where something is
    std::string hint;
  };
  Parsed parse(std::vector<std::string> arguments);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// "keep_good" -> "--keep-good"
std::string option_name(std::string_view field);

/// Puts a request's fields on the command line.
template <class Request>
struct Binder {
  CommandLine& line;
  Request& request;

  template <class M, class B>
  void field(std::string_view name, M B::* member, const Note& note) {
    line.add(name, note, &(request.*member));
  }
  template <class B>
  void field(std::string_view name, std::vector<std::string> B::* member, const Note& note) {
    line.add(name, note, &(request.*member), name == "by");
  }
};

}  // namespace sherd::cli
