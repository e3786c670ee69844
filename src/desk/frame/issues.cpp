#include "desk/frame/issues.h"

#include <algorithm>
#include <cstdlib>

namespace sherd::desk {

Result<std::int64_t> newest_issue(const Session& session, std::string_view kind) {
  const std::string prefix = std::string(kind) + "/";
  SHERD_TRY(const auto names, session.store->document_names(session.site.code, prefix));
  std::int64_t newest = 0;
  for (const std::string& name : names) {
    newest = std::max<std::int64_t>(newest, std::atoll(name.c_str() + prefix.size()));
  }
  return newest;
}

Result<void> send_out(const Session& session, Environment& environment, const Issue& issue) {
  const std::string number = std::to_string(issue.number);
  SHERD_TRY(const auto writing,
            session.store->begin(change_note(environment, std::string(issue.kind) + " --issue " + number)));
  SHERD_CHECK(
      writing->put_document(session.site.code, {std::string(issue.kind) + "/" + number, issue.mime, issue.kept}));
  SHERD_CHECK(environment.files->write(issue.file, issue.bytes));
  SHERD_CHECK(writing->commit());
  return {};
}

}  // namespace sherd::desk
