#include "base/text.h"
#include "cli/command_pages.h"

namespace sherd::cli {

namespace {

/// Options only; what takes a value is told apart where `with_value`.
std::vector<std::string> options_of(const std::vector<CommandField>& fields, bool with_value) {
  std::vector<std::string> out;
  for (const CommandField& field : fields) {
    if (!field.is_argument && (!with_value || !field.value.empty())) out.push_back(field.spelling);
  }
  return out;
}

std::vector<std::string> commands() {
  std::vector<std::string> out;
  for (const CommandPage& page : command_pages()) out.push_back(page.name);
  return out;
}

/// Between apostrophes, as all three shells take it; `closed` is how the shell writes an apostrophe there.
std::string quoted(std::string_view text, std::string_view closed) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'') {
      out += closed;
    } else {
      out += c;
    }
  }
  return out + "'";
}

constexpr std::string_view kPosix = R"('\'')";
constexpr std::string_view kFish = R"(\')";

/// Of zsh's specification of an option: [ ] : stand for themselves behind a backslash.
std::string zsh_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '[' || c == ']' || c == ':' || c == '\\') out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_option(const CommandField& field) {
  std::string text = field.spelling + "[" + zsh_text(field.help) + "]";
  if (!field.value.empty()) text += ":" + zsh_text(field.value) + ":_files";
  return quoted(text, kPosix);
}

}  // namespace

std::string bash_completion() {
  std::string out =
      "# Completion of sherdwright in bash; made by `sherdwright reference --bash`.\n"
      "_sherdwright() {\n"
      "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command= options= values= i\n"
      "  for ((i = 1; i < COMP_CWORD; i++)); do\n"
      "    if [[ ${COMP_WORDS[i]} != -* ]]; then command=${COMP_WORDS[i]}; break; fi\n"
      "  done\n"
      "  COMPREPLY=()\n"
      "  if [[ -z $command ]]; then\n"
      "    if [[ $word == -* ]]; then options='--help --version'; else options='" +
      join(commands(), " ") +
      "'; fi\n"
      "    mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
      "    return\n"
      "  fi\n"
      "  case $command in\n";
  for (const CommandPage& page : command_pages()) {
    out += "    " + page.name + ") options='" + join(options_of(page.fields, false), " ") + "' values=' " +
           join(options_of(page.fields, true), " ") + " ' ;;\n";
  }
  out +=
      "    *) return ;;\n"
      "  esac\n"
      "  # Behind an option that takes a value, and for arguments: files.\n"
      "  [[ $word == -* && $values != *\" $before \"* ]] || return\n"
      "  mapfile -t COMPREPLY < <(compgen -W \"$options " +
      join(options_of(common_fields(), false), " ") +
      "\" -- \"$word\")\n"
      "}\n"
      "complete -o bashdefault -o default -F _sherdwright sherdwright\n";
  return out;
}

std::string zsh_completion() {
  std::string out =
      "#compdef sherdwright\n"
      "# Completion of sherdwright in zsh; made by `sherdwright reference --zsh`.\n"
      "_sherdwright() {\n"
      "  local -a commands common\n"
      "  commands=(\n";
  for (const CommandPage& page : command_pages())
    out += "    " + quoted(zsh_text(page.name) + ":" + page.help, kPosix) + "\n";
  out += "  )\n  common=(\n";
  for (const CommandField& field : common_fields()) out += "    " + zsh_option(field) + "\n";
  out +=
      "  )\n"
      "  if (( CURRENT == 2 )); then\n"
      "    _describe -t commands command commands\n"
      "    return\n"
      "  fi\n"
      "  local command=$words[2]\n"
      "  shift words\n"
      "  (( CURRENT-- ))\n"
      "  case $command in\n";
  for (const CommandPage& page : command_pages()) {
    out += "    " + page.name + ") _arguments $common";
    for (const CommandField& field : page.fields) {
      if (!field.is_argument) out += " \\\n      " + zsh_option(field);
    }
    out += " \\\n      '*:file:_files' ;;\n";
  }
  out += "  esac\n}\n_sherdwright \"$@\"\n";
  return out;
}

std::string fish_completion() {
  std::string out =
      "# Completion of sherdwright in fish; made by `sherdwright reference --fish`.\n"
      "complete -c sherdwright -n __fish_use_subcommand -f -l version -d 'the version'\n";
  for (const CommandField& field : common_fields())
    out += "complete -c sherdwright -l " + field.spelling.substr(2) + " -d " + quoted(field.help, kFish) + "\n";
  for (const CommandPage& page : command_pages()) {
    out += "complete -c sherdwright -n __fish_use_subcommand -f -a " + page.name + " -d " + quoted(page.help, kFish) +
           "\n";
    for (const CommandField& field : page.fields) {
      if (field.is_argument) continue;
      out += "complete -c sherdwright -n '__fish_seen_subcommand_from " + page.name + "' -l " +
             field.spelling.substr(2) + (field.value.empty() ? "" : " -r") + " -d " + quoted(field.help, kFish) + "\n";
    }
  }
  return out;
}

}  // namespace sherd::cli
