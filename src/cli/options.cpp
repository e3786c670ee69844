#include "cli/options.h"

#include <CLI/CLI.hpp>
#include <algorithm>

#include "base/text.h"

namespace sherd::cli {

struct CommandLine::State {
  CLI::App app;
  CLI::App* command = nullptr;
  std::vector<std::string> commands;
};

std::string option_name(std::string_view field) {
  std::string name = "--" + std::string(field);
  std::replace(name.begin(), name.end(), '_', '-');
  return name;
}

namespace {

std::string spelling(std::string_view name, const Note& note) {
  return note.place == Place::argument ? std::string(name) : option_name(name);
}

CLI::Option* finish(CLI::Option* option, const Note& note) {
  if (note.required) option->required();
  return option;
}

/// What the option library calls an unknown word, as a person would say it.
void explain(CommandLine::Parsed& parsed, const CLI::App& app, const std::vector<std::string>& commands,
             const std::vector<std::string>& arguments, const CLI::ParseError& error) {
  parsed.misused = error.what();
  if (const std::size_t end = parsed.misused.find('\n'); end != std::string::npos) parsed.misused.resize(end);
  const auto used = app.get_subcommands();
  if (used.empty()) {
    const auto first = std::find_if(arguments.begin(), arguments.end(),
                                    [](const std::string& word) { return !word.starts_with("-"); });
    if (first == arguments.end()) {
      parsed.misused = "no command was given";
      parsed.hint = "sherdwright --help lists them";
    } else {
      parsed.misused = "there is no command \"" + *first + "\"";
      parsed.hint = did_you_mean(*first, commands);
      if (parsed.hint.empty()) parsed.hint = "sherdwright --help lists them";
    }
    return;
  }
  std::vector<std::string> names;
  for (const CLI::Option* option : used.front()->get_options()) names.push_back(option->get_name());
  for (const std::string& word : used.front()->remaining()) {
    parsed.misused = (word.starts_with("-") ? "there is no option \"" : "one word too many: \"") + word + "\"";
    parsed.hint = word.starts_with("-") ? did_you_mean(word, names) : std::string{};
    break;
  }
  if (parsed.hint.empty()) parsed.hint = "sherdwright " + used.front()->get_name() + " --help tells its options";
}

}  // namespace

CommandLine::CommandLine(std::string_view program, std::string_view about, std::string_view version)
    : state_(std::make_unique<State>()) {
  state_->app.name(std::string(program));
  state_->app.description(std::string(about));
  state_->app.set_version_flag("--version", std::string(version), "the version");
  state_->app.get_formatter()->column_width(24);
  state_->app.require_subcommand(1);
}

CommandLine::~CommandLine() = default;

void CommandLine::add_command(std::string_view name, std::string_view help, std::function<void()> chosen) {
  state_->command = state_->app.add_subcommand(std::string(name), std::string(help));
  state_->command->get_formatter()->column_width(34);
  state_->command->callback(std::move(chosen));
  state_->commands.emplace_back(name);
}

void CommandLine::add(std::string_view name, const Note& note, std::string* value) {
  finish(state_->command->add_option(spelling(name, note), *value, std::string(note.help)), note)->type_name("");
}

void CommandLine::add(std::string_view name, const Note& note, bool* value) {
  state_->command->add_flag(spelling(name, note), *value, std::string(note.help));
}

void CommandLine::add(std::string_view name, const Note& note, std::optional<std::int64_t>* value) {
  finish(state_->command->add_option(spelling(name, note), *value, std::string(note.help)), note)->type_name("N");
}

void CommandLine::add(std::string_view name, const Note& note, std::optional<double>* value) {
  finish(state_->command->add_option(spelling(name, note), *value, std::string(note.help)), note)->type_name("X");
}

void CommandLine::add(std::string_view name, const Note& note, std::vector<std::string>* values, bool by_commas) {
  CLI::Option* option =
      finish(state_->command->add_option(spelling(name, note), *values, std::string(note.help)), note);
  option->type_name("")->expected(1)->take_all();
  option->allow_extra_args(false);
  if (note.place == Place::argument) option->expected(-1);
  if (by_commas) option->delimiter(',');
}

CommandLine::Parsed CommandLine::parse(std::vector<std::string> arguments) {
  Parsed parsed;
  const std::vector<std::string> given = arguments;
  std::reverse(arguments.begin(), arguments.end());  // the library takes them from the back
  try {
    state_->app.parse(std::move(arguments));
    parsed.chosen = true;
  } catch (const CLI::CallForHelp&) {
    parsed.shown = state_->app.help();
  } catch (const CLI::CallForAllHelp&) {
    parsed.shown = state_->app.help("", CLI::AppFormatMode::All);
  } catch (const CLI::CallForVersion&) {
    parsed.shown = state_->app.version() + "\n";
  } catch (const CLI::ParseError& error) {
    explain(parsed, state_->app, state_->commands, given, error);
  }
  return parsed;
}

}  // namespace sherd::cli
