#include "desk/report/import_bibliography.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/report/citations.h"
#include "desk/report/convert_report.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct Known {
  std::string uid;
  PublishedWork work;
};

Result<std::map<std::string, Known>> known_works(const Session& session) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::bibliography, {}, {}}));
  SHERD_TRY(const Table uids, session.store->read({session.site.code, Kind::bibliography, {"uid"}, {}}));
  std::map<std::string, Known> known;
  const auto works = rows_from<PublishedWork>(table);
  for (std::size_t i = 0; i < works.size(); ++i)
    known[works[i].citation] = {std::string(uids.columns()[0].text(i)), works[i]};
  return known;
}

Result<std::vector<PublishedWork>> read_works(std::string_view text, Environment& environment, Progress& progress) {
  const std::string_view begins = trim(text);
  std::vector<PublishedWork> works;
  if (begins.starts_with("[") || begins.starts_with("{")) {
    SHERD_TRY(works, citations_from_csl(text));
  } else {
    SHERD_TRY(const std::string csl, csl_of_bibtex(std::string(text), environment, progress));
    SHERD_TRY(works, citations_from_csl(csl));
  }
  if (works.empty()) return fail("no_works", "the file holds no works", "give BibTeX or CSL JSON");
  std::set<std::string> keys;
  for (const PublishedWork& work : works) {
    if (!keys.insert(work.citation).second)
      return fail("key_twice", "the key " + work.citation + " is given twice", "give each work a key of its own");
  }
  return works;
}

/// Column, what stands there, what is to.
std::vector<std::array<std::string, 3>> differences(const PublishedWork& was, const PublishedWork& now) {
  std::vector<std::array<std::string, 3>> out;
  const auto add = [&](const char* column, const std::string& a, const std::string& b) {
    if (a != b) out.push_back({column, a, b});
  };
  add("type", was.type, now.type);
  add("authors", was.authors, now.authors);
  add("year", was.year, now.year);
  add("title", was.title, now.title);
  add("csl", was.csl, now.csl);
  return out;
}

struct Wanted {
  std::string store, site, command, change;
  bool dry_run = false;
};

Result<void> write_works(const std::vector<PublishedWork>& works, const std::map<std::string, Known>& known,
                         const Wanted& wanted, Session& session, Environment& environment,
                         BibliographyResponse& response) {
  ChangeNote note = change_note(environment, wanted.command);
  if (!wanted.change.empty()) note.uid = wanted.change;
  SHERD_TRY(const auto writing, session.store->begin(note));
  std::vector<PublishedWork> added;
  for (const PublishedWork& work : works) {
    const auto found = known.find(work.citation);
    if (found == known.end()) {
      added.push_back(work);
      continue;
    }
    for (const auto& [column, was, now] : differences(found->second.work, work))
      SHERD_CHECK(writing->edit(session.site.code, Kind::bibliography, {found->second.uid, column, was, now}));
  }
  if (!added.empty()) SHERD_CHECK(writing->insert(session.site.code, table_from(Kind::bibliography, added)));
  SHERD_TRY(const Change change, writing->commit());
  response.change = change.seq;
  return {};
}

Result<BibliographyResponse> import_works(std::string_view text, const Wanted& wanted, Environment& environment,
                                          Progress& progress) {
  SHERD_TRY(const auto works, read_works(text, environment, progress));
  SHERD_TRY(Session session, open_session(environment, wanted.store, wanted.site));
  SHERD_TRY(const auto known, known_works(session));
  BibliographyResponse response;
  for (const PublishedWork& work : works) {
    const auto found = known.find(work.citation);
    const bool is_new = found == known.end();
    const bool same = !is_new && differences(found->second.work, work).empty();
    (is_new ? response.added : same ? response.same : response.changed) += 1;
    response.works.push_back({work.citation, work.authors, work.year, work.title,
                              is_new ? "added"
                              : same ? "same"
                                     : "changed"});
  }
  if (!wanted.dry_run && response.added + response.changed > 0)
    SHERD_CHECK(write_works(works, known, wanted, session, environment, response));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace

Result<BibliographyResponse> import_bibliography(const BibliographyRequest& request, Environment& environment,
                                                 Progress& progress) {
  SHERD_TRY(const std::string bytes, environment.files->read(request.file));
  return import_works(bytes, {request.store, request.site, "bibliography " + request.file, "", request.dry_run},
                      environment, progress);
}

Result<BibliographyResponse> import_bibliography_text(const BibliographyTextRequest& request, Environment& environment,
                                                      Progress& progress) {
  return import_works(request.text, {request.store, request.site, "bibliography", request.change, false}, environment,
                      progress);
}

}  // namespace sherd::desk
