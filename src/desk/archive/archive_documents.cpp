#include "desk/archive/archive_documents.h"

#include <set>

#include "base/text.h"
#include "desk/archive/archive_names.h"

namespace sherd::desk {

namespace {

using Names = std::map<std::string, std::string>;

/// By the name of the document: the picture that shows it.
Result<Names> picture_names(const Session& session) {
  SHERD_TRY(const Table rows,
            session.store->read({session.site.code, Kind::pictures, {"picture", "file", "small_file"}}));
  Names names;
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    const std::string picture(rows.columns()[0].text(row));
    for (std::size_t i : {std::size_t{1}, std::size_t{2}}) {
      if (rows.columns()[i].is_null(row)) continue;
      names.emplace(rows.columns()[i].text(row), picture + (i == 2 ? "_small" : ""));
    }
  }
  return names;
}

/// Where a document goes and how it is called there.
ArchivedFile file_of(const Table& rows, std::size_t row, bool former, const Names& pictures, ArchiveFolder& folder) {
  const std::string name(rows.find("uid")->text(row)), mime(rows.find("mime")->text(row));
  const auto picture = pictures.find(name);
  const bool shown = !former && picture != pictures.end();
  const bool read_in = name.starts_with("imports/");
  std::string place = former ? "history/documents" : "documents";
  if (shown) place = "pictures";
  if (!former && read_in) place = "imports";
  const std::size_t dot = name.rfind('.');
  std::string stem = name.substr(0, dot);
  if (shown) stem = picture->second;
  if (read_in) stem = stem.substr(stem.find('/') + 1);
  std::string ending = ending_of(mime);
  if (ending == ".bin" && dot != std::string::npos && name_troubles("x" + lower(name.substr(dot))).empty())
    ending = lower(name.substr(dot));
  ArchivedFile file;
  file.path = folder.names().take(place, stem, ending);
  file.category = mime.starts_with("image/") ? "image" : "document";
  if (read_in) file.category = "data as received";
  file.title = shown ? "Picture " + picture->second : "Document " + name;
  file.description = "kept in the record as " + name + (former ? "; since replaced" : "");
  file.history = read_in || shown ? "kept as it came, byte by byte" : "kept as it went out";
  return file;
}

}  // namespace

Result<DocumentPaths> archive_documents(const Session& session, const TableVersions& documents, ArchiveFolder& folder) {
  SHERD_TRY(const Names pictures, picture_names(session));
  const Table& rows = documents.rows;
  const Column& to = *rows.find("to_change");
  DocumentPaths paths;
  for (const bool former : {false, true}) {
    for (std::size_t row = 0; row < rows.rows(); ++row) {
      const std::string hash(rows.find("sha256")->text(row));
      if (to.is_null(row) == former || paths.contains(hash)) continue;
      SHERD_TRY(const std::string bytes, session.store->whole().bytes(hash, rows.find("bytes")->integer(row)));
      ArchivedFile file = file_of(rows, row, former, pictures, folder);
      paths.emplace(hash, file.path);
      SHERD_CHECK(folder.add(std::move(file), bytes));
    }
  }
  return paths;
}

Result<std::vector<std::string>> missing_pictures(const Session& session) {
  SHERD_TRY(const Table rows,
            session.store->read({session.site.code, Kind::pictures, {"picture", "file", "small_file"}}));
  SHERD_TRY(const auto names, session.store->document_names(session.site.code, ""));
  const std::set<std::string, std::less<>> there(names.begin(), names.end());
  std::vector<std::string> missing;
  for (std::size_t row = 0; row < rows.rows(); ++row) {
    for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
      const std::string file(rows.columns()[i].text(row));
      if (!file.empty() && !there.contains(file))
        missing.push_back("picture " + std::string(rows.columns()[0].text(row)) + ": " + file);
    }
  }
  return missing;
}

}  // namespace sherd::desk
