#include "desk/assemblage/published.h"

#include <algorithm>

#include "base/text.h"
#include "desk/assemblage/published_table.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kFolder = "published/";

std::string document_name(const std::string& assemblage) { return std::string(kFolder) + assemblage; }

}  // namespace

double PublishedAssemblage::total() const {
  double sum = 0;
  for (const PublishedTotal& one : totals) sum += one.amount;
  return sum;
}

Result<std::vector<PublishedAssemblage>> read_published(const Session& session) {
  SHERD_TRY(const auto names, session.store->document_names(session.site.code, kFolder));
  std::vector<PublishedAssemblage> out;
  for (const std::string& name : names) {
    SHERD_TRY(const auto document, session.store->document(session.site.code, name));
    if (!document || document->bytes.empty()) continue;  // taken out
    auto read = published_of(document->bytes, name + ".csv");
    if (!read) {
      return fail(
          "damaged_store",
          "the published assemblage \"" + name.substr(kFolder.size()) + "\" cannot be read: " + read.error().message,
          "add it anew: sherdwright add-published STORE --in FILE");
    }
    out.insert(out.end(), read->begin(), read->end());
  }
  return out;
}

Result<PublishedResponse> list_published(const PublishedRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  PublishedResponse response;
  SHERD_TRY(response.assemblages, read_published(session));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

Result<AddPublishedResponse> add_published(const AddPublishedRequest& request, Environment& environment, Progress&) {
  if (request.in.empty() && request.table.empty() && request.remove.empty()) {
    return fail(ErrorKind::usage, "nothing_given", "there is nothing to add or to take out",
                "--in FILE adds a table, --remove NAME takes an assemblage out");
  }
  std::vector<PublishedAssemblage> given;
  if (!request.in.empty()) {
    SHERD_TRY(const std::string bytes, environment.files->read(request.in));
    SHERD_TRY(given, published_of(bytes, request.in));
  } else if (!request.table.empty()) {
    SHERD_TRY(given, published_of(request.table, "table.csv"));
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  AddPublishedResponse response;
  SHERD_TRY(const auto kept, read_published(session));
  SHERD_TRY(auto writing, session.store->begin(change_note(environment, "published assemblages")));
  bool any = false;
  const auto put = [&](const std::string& name, const std::string& bytes) -> Result<void> {
    any = true;
    return writing->put_document(session.site.code, {document_name(name), "text/csv", bytes});
  };
  for (const PublishedAssemblage& one : given) {
    const std::string bytes = csv_of_published(one);
    const auto before = std::ranges::find(kept, one.assemblage, &PublishedAssemblage::assemblage);
    const bool same = before != kept.end() && csv_of_published(*before) == bytes;
    (same ? response.same : before == kept.end() ? response.added : response.replaced).push_back(one.assemblage);
    if (!same) SHERD_CHECK(put(one.assemblage, bytes));
  }
  if (!request.remove.empty()) {
    if (std::ranges::find(kept, request.remove, &PublishedAssemblage::assemblage) == kept.end()) {
      std::vector<std::string> names;
      for (const PublishedAssemblage& one : kept) names.push_back(one.assemblage);
      return fail("no_row", "no published assemblage \"" + request.remove + "\" is kept",
                  did_you_mean(request.remove, names));
    }
    SHERD_CHECK(put(request.remove, ""));
    response.removed.push_back(request.remove);
  }
  if (any) {
    SHERD_TRY(const Change change, writing->commit());
    static_cast<void>(change);
  }
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
