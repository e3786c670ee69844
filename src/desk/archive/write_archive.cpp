#include "desk/archive/write_archive.h"

#include "base/text.h"
#include "desk/archive/archive_documents.h"
#include "desk/archive/archive_figures.h"
#include "desk/archive/archive_metadata.h"
#include "desk/archive/archive_results.h"
#include "desk/archive/archive_tables.h"
#include "exchange/zip_folder.h"

namespace sherd::desk {

namespace {

ArchivedFile said(std::string path, std::string category, std::string title, std::string description) {
  return {.path = std::move(path),
          .category = std::move(category),
          .title = std::move(title),
          .description = std::move(description),
          .tag = {},
          .history = {},
          .sha256 = {}};
}

/// What an archive is made of, one part after another.
struct Archive {
  const ArchiveRequest& request;
  Environment& environment;
  Progress& progress;
  Session session;
  ArchiveAbout about;
  std::vector<std::string> missing;  ///< pictures
  ArchivedTables tables;
  ArchivedResults results;
};

Result<void> check_complete(const Archive& archive) {
  const auto& missing = archive.missing;
  if (missing.empty() || archive.request.incomplete) return {};
  return fail("missing_pictures",
              counted(std::ssize(missing), "picture") + " that the record names " +
                  (missing.size() == 1 ? "is" : "are") + " not in the store: " + missing.front() +
                  (missing.size() > 1 ? " ..." : ""),
              "give the pictures their files, or remove their rows; --incomplete makes the archive without them");
}

/// Tables are read one after another: what was written in between would stand in some of them only.
Result<void> check_unchanged(const Archive& archive) {
  SHERD_TRY(const auto newest, archive.session.store->newest_change());
  if (newest && newest->uid == archive.about.last.uid) return {};
  return fail("record_changed", "someone wrote into the record while it was archived; no archive was made",
              "make it again when nobody records");
}

std::vector<std::string> left_out(const Archive& archive) {
  std::vector<std::string> all = archive.results.left_out;
  for (const std::string& one : archive.missing) all.push_back("Not in the record: " + one + ".");
  return all;
}

Result<void> put_metadata(const Archive& archive, ArchiveFolder& folder) {
  std::vector<ArchivedTable> all = archive.tables.tables;
  all.insert(all.end(), archive.results.tables.begin(), archive.results.tables.end());
  SHERD_CHECK(archive_relations(archive.tables.tables, folder, archive.progress));
  SHERD_CHECK(folder.add(said("metadata/fields.csv", "metadata", "Fields", "field-level metadata of every table"),
                         fields_csv(all)));
  SHERD_CHECK(folder.add(said("metadata/tables.csv", "metadata", "Tables", "table-level metadata"), tables_csv(all)));
  SHERD_CHECK(
      folder.add(said("metadata/codes.csv", "metadata", "Codes", "key of the codes of closed lists"), codes_csv(all)));
  SHERD_CHECK(folder.add(said("metadata/scales.csv", "metadata", "Scales", "the named scales and their classes"),
                         scales_csv()));
  SHERD_CHECK(folder.add(said("metadata/collection.csv", "metadata", "Collection", "collection-level metadata"),
                         collection_csv(archive.about)));
  SHERD_CHECK(
      folder.add(said("metadata/dublin_core.xml", "metadata", "Dublin Core", "Dublin Core elements of the whole"),
                 dublin_core(archive.about)));
  SHERD_TRY(const std::int64_t next, archive.session.store->whole().next_record(archive.about.site.code));
  SHERD_CHECK(folder.add(said("datapackage.json", "metadata", "Data package", "the tables, described for programs"),
                         data_package(archive.about, all, folder.files(), next)));
  std::vector<ArchivedFile> files = folder.files();
  files.push_back(said("metadata/files.csv", "metadata", "Files", "file-level metadata"));
  files.push_back(said("README.txt", "metadata", "Read me", "what is here and how to read it"));
  SHERD_CHECK(
      folder.add(files.back(), archive_readme(archive.about, archive.tables, folder.files(), left_out(archive))));
  return folder.add(files[files.size() - 2], files_csv(archive.about, files));
}

Result<ArchiveResponse> answer(const Archive& archive, ArchiveFolder& folder, const std::string& place) {
  ArchiveResponse response;
  SHERD_TRY(response.sha256, folder.seal());
  response.folder = place;
  for (const ArchivedFile& file : folder.files()) {
    response.files.push_back({file.path, file.sha256, file.bytes});
    response.bytes += file.bytes;
  }
  response.missing = archive.missing;
  for (const auto* list : {&archive.results.left_out, &archive.tables.dangling}) {
    for (const std::string& one : *list) response.warnings.push_back(one);
  }
  for (const std::string& warning : archive.session.store->warnings()) response.warnings.push_back(warning);
  SHERD_TRY(response.provenance, archive.session.provenance(archive.environment));
  return response;
}

Result<void> put_in_place(ArchiveFolder& folder, const Archive& archive, bool as_zip, const std::string& place) {
  if (!as_zip) return folder.finish();
  std::vector<std::string> names{std::string(kManifest)};
  for (const ArchivedFile& file : folder.files()) names.push_back(file.path);
  return exchange::zip_folder(folder.part(), names, safe_stem(archive.about.site.code), place);
}

}  // namespace

Result<ArchiveResponse> write_archive(const ArchiveRequest& request, Environment& environment, Progress& progress) {
  std::string place = request.folder;
  while (place.size() > 1 && place.ends_with('/')) place.pop_back();
  const bool as_zip = lower(place).ends_with(".zip");
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(ArchiveAbout about, archive_about(session, environment));
  if (as_zip && environment.files->exists(place)) {
    return fail("folder_in_use", place + " is there already", "name a file that is not there");
  }
  SHERD_TRY(ArchiveFolder folder, ArchiveFolder::begin(environment, place));
  Archive archive{request, environment, progress, std::move(session), std::move(about), {}, {}, {}};
  SHERD_TRY(archive.missing, missing_pictures(archive.session));
  SHERD_CHECK(check_complete(archive));
  // What needs most memory first: it is free again for the tables.
  SHERD_TRY(archive.results,
            archive_results(archive.session, request.store, archive.about, environment, folder, progress));
  SHERD_TRY(archive.tables, archive_tables(archive.session, folder, progress));
  SHERD_CHECK(put_metadata(archive, folder));
  SHERD_CHECK(check_unchanged(archive));
  SHERD_TRY(ArchiveResponse response, answer(archive, folder, place));
  SHERD_CHECK(put_in_place(folder, archive, as_zip, place));
  return response;
}

}  // namespace sherd::desk
