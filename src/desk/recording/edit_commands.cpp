#include "desk/recording/edit_commands.h"

#include <utility>

#include "base/text.h"

namespace sherd::desk {

namespace {

Result<std::pair<std::string, std::string>> assignment(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0) {
    return fail(ErrorKind::usage, "bad_value", "\"" + shortened(text, 40) + "\" is not COLUMN=VALUE",
                "write for example weight_g=14.5, in quotes where there are blanks");
  }
  return std::pair(std::string(trim(text.substr(0, equals))), text.substr(equals + 1));
}

template <class Request>
EditsRequest change_of(const Request& request, std::string label, const Environment& environment) {
  EditsRequest edits;
  edits.store = request.store;
  edits.site = request.site;
  edits.change = request.change.empty() ? environment.new_uid() : request.change;
  edits.label = std::move(label);
  return edits;
}

}  // namespace

Result<EditsResponse> add_row(const AddRequest& request, Environment& environment, Progress&) {
  EditsRequest edits = change_of(request, "add " + request.kind, environment);
  EditStep step;
  step.act = "add";
  step.kind = request.kind;
  for (const std::string& text : request.values) {
    SHERD_TRY(auto value, assignment(text));
    if (!step.values.emplace(value.first, value.second).second)
      return fail(ErrorKind::usage, "bad_value", value.first + " is given twice");
  }
  edits.steps.push_back(std::move(step));
  return apply_steps(edits, true, environment);
}

Result<EditsResponse> edit_row(const EditRequest& request, Environment& environment, Progress&) {
  EditsRequest edits = change_of(request, "edit " + request.kind + " " + request.row, environment);
  for (const std::string& text : request.values) {
    SHERD_TRY(auto value, assignment(text));
    EditStep step;
    step.act = "set";
    step.kind = request.kind;
    step.row = request.row;
    step.column = std::move(value.first);
    step.value = std::move(value.second);
    edits.steps.push_back(std::move(step));
  }
  return apply_steps(edits, true, environment);
}

Result<EditsResponse> remove_row(const RemoveRequest& request, Environment& environment, Progress&) {
  EditsRequest edits = change_of(request, "remove " + request.kind + " " + request.row, environment);
  EditStep step;
  step.act = "remove";
  step.kind = request.kind;
  step.row = request.row;
  if (!request.with.empty()) {
    for (const std::string_view kind : split(request.with, ',')) step.with.emplace_back(trim(kind));
  }
  edits.steps.push_back(std::move(step));
  return apply_steps(edits, true, environment);
}

}  // namespace sherd::desk
