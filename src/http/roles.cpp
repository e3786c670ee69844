#include "http/roles.h"

#include <algorithm>
#include <array>

namespace sherd::http {

namespace {

using access::Role;

/// The kinds of rows that a recorder may add, alter and remove.
constexpr std::array<std::string_view, 9> kRecorded{"sherds",   "rims",  "joins", "inclusions", "specimens",
                                                    "pictures", "scans", "bags",  "trays"};
/// Those that a recorder may add where the record lacks them: the codes come as provisional ones.
constexpr std::array<std::string_view, 3> kAdded{"fabrics", "forms", "decorations"};

bool is_of_recorder(const Step& step) {
  if (std::ranges::find(kRecorded, step.kind) != kRecorded.end()) return true;
  if (step.act == "add") return std::ranges::find(kAdded, step.kind) != kAdded.end();
  return step.act == "set" && step.kind == "contexts";
}

Role least_role(const Route& route, const Work& work) {
  if (!route.from_page) return work.keeps ? Role::recorder : Role::reader;
  if (route.name == "undo" || route.name == "key-answers") return Role::recorder;
  const bool recording = route.name == "edits" && std::ranges::all_of(work.steps, is_of_recorder);
  return recording ? Role::recorder : Role::editor;
}

Result<void> at_least(const Visitor& visitor, Role least, std::string_view what) {
  if (visitor.role >= least) return {};
  return fail(
      "not_allowed", "a " + std::string(access::name_of(visitor.role)) + " may not " + std::string(what),
      "ask " + std::string(least == Role::editor ? "an editor" : "a recorder") + ", or whoever keeps the accounts");
}

}  // namespace

Result<void> check_role(const Visitor& visitor, const Route& route, const Work& work) {
  const std::string_view what = !route.from_page ? "keep what comes out" : route.name == "undo" ? "undo" : "write that";
  return at_least(visitor, least_role(route, work), what);
}

Result<void> check_role_of_files(const Visitor& visitor) { return at_least(visitor, Role::recorder, "keep pictures"); }

}  // namespace sherd::http
