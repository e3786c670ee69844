#include <algorithm>
#include <filesystem>
#include <optional>
#include <set>
#include <utility>

#include "base/csv.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/archive/archive_csv.h"
#include "desk/archive/read_archive.h"

namespace sherd::desk {

namespace {

namespace fs = std::filesystem;

std::unexpected<Error> damaged(std::string file, std::string message) {
  Error error{.code = "damaged_archive", .message = std::move(message), .hint = "verify says which files were changed"};
  error.where.file = std::move(file);
  return fail(std::move(error));
}

Result<std::int64_t> number_in(const std::string& text) {
  auto number = parse_scaled(text, 0);
  if (!number) return damaged("history/changes.csv", "\"" + text + "\" is not a number");
  return number;
}

/// The history out of history/changes.csv.
Result<void> read_changes(const ReadArchive& archive, Filling& filling) {
  SHERD_TRY(const std::string text, archive.read("history/changes.csv"));
  const auto rows = parse_csv(text);
  if (!rows) return damaged("history/changes.csv", rows.error().message);
  const auto table = CsvTable::of(*rows, {"seq", "uid", "at", "who", "origin", "command", "undoes", "rows_added",
                                          "rows_changed", "rows_removed", "merged_copy", "merged_base"});
  if (!table) return damaged("history/changes.csv", table.error().message);
  for (std::size_t row = 0; row < table->rows(); ++row) {
    Change change;
    SHERD_TRY(change.seq, number_in(table->text(row, 0)));
    change.uid = table->text(row, 1);
    change.at = table->text(row, 2);
    change.who = table->text(row, 3);
    change.origin = table->text(row, 4);
    change.command = table->text(row, 5);
    if (!table->text(row, 6).empty()) {
      SHERD_TRY(change.undoes, number_in(table->text(row, 6)));
    }
    SHERD_TRY(change.rows_added, number_in(table->text(row, 7)));
    SHERD_TRY(change.rows_changed, number_in(table->text(row, 8)));
    SHERD_TRY(change.rows_removed, number_in(table->text(row, 9)));
    if (!table->text(row, 10).empty()) {
      SHERD_TRY(const std::int64_t base, number_in(table->text(row, 11)));
      filling.merged.push_back({change.seq, table->text(row, 10), base});
    }
    filling.changes.push_back(std::move(change));
  }
  return {};
}

/// Fills an empty store from an archive that was found sound.
class Restorer {
 public:
  Restorer(const ReadArchive& archive, Store& store, Progress& progress)
      : archive_(archive), store_(store), progress_(progress), names_(store.whole().tables()) {}

  Result<void> run() {
    Filling filling;
    filling.site = archive_.site;
    filling.next_record = archive_.next_record;
    SHERD_CHECK(read_changes(archive_, filling));
    filling.next_table = [this] { return next_table(); };
    filling.next_bytes = [this] { return next_bytes(); };
    return store_.whole().fill(filling);
  }

 private:
  Result<std::optional<TableVersions>> next_table() {
    if (table_ == names_.size()) return std::nullopt;
    const std::string& name = names_[table_++];
    const double done = static_cast<double>(table_) / static_cast<double>(names_.size());
    if (!progress_.step(done, "reading " + name))
      return fail(ErrorKind::stopped, "stopped", "stopped; no store was made");
    std::optional<TableVersions> versions = store_.whole().empty(name);
    for (const std::string& path : {"tables/" + name + ".csv", "history/former_" + name + ".csv"}) {
      if (!archive_.has(path)) continue;
      SHERD_TRY(const std::string text, archive_.read(path));
      SHERD_CHECK(read_versions(text, path, *versions));
    }
    sort_versions(*versions);
    if (name == "document") note_documents(versions->rows);
    return versions;
  }

  void note_documents(const Table& rows) {
    const Column& hashes = *rows.find("sha256");
    std::set<std::string> wanted;
    for (std::size_t row = 0; row < rows.rows(); ++row) wanted.emplace(hashes.text(row));
    documents_.assign(wanted.begin(), wanted.end());
  }

  Result<std::optional<std::string>> next_bytes() {
    if (document_ == documents_.size()) return std::nullopt;
    const std::string& hash = documents_[document_++];
    const std::string path = archive_.with_hash(hash);
    if (path.empty()) return damaged("tables/document.csv", "no file has the checksum " + hash + " of a document");
    SHERD_TRY(std::string bytes, archive_.read(path));
    return bytes;
  }

  const ReadArchive& archive_;
  Store& store_;
  Progress& progress_;
  std::vector<std::string> names_, documents_;
  std::size_t table_ = 0, document_ = 0;
};

/// A store in a file of its own until it is made sure of; the file goes with this.
struct Trial {
  std::string path;
  explicit Trial(std::string at) : path(std::move(at)) {}
  Trial(const Trial&) = delete;
  Trial& operator=(const Trial&) = delete;
  ~Trial() {
    std::error_code ignored;
    for (const char* end : {"", "-wal", "-shm"}) fs::remove(path + end, ignored);
  }
};

std::string beside(const std::string& store, const std::string& uid) {
  if (store.find("://") == std::string::npos) return store + ".from-archive-" + uid.substr(0, 8);
  std::error_code ignored;
  return (fs::temp_directory_path(ignored) / ("sherds-" + uid)).string();
}

}  // namespace

Result<void> restore_archive(const std::string& archive, const std::string& store, Environment& environment,
                             Progress& progress) {
  if (store.find("://") == std::string::npos && environment.files->exists(store))
    return fail("store_exists", store + " is there already", "name a store that is not there");
  SHERD_TRY(ReadArchive reading, ReadArchive::open(environment, archive));
  SHERD_TRY(const auto faults, reading.faults(progress));
  if (!faults.empty()) {
    return damaged(archive, "the archive is not as it was sealed: " + faults.front().path + " was " +
                                faults.front().what +
                                (faults.size() > 1 ? ", and " + std::to_string(faults.size() - 1) + " more" : ""));
  }
  const Trial trial(beside(store, environment.new_uid()));
  {
    SHERD_TRY(const auto made, environment.create_store(trial.path));
    SHERD_CHECK(Restorer(reading, *made, progress).run());
  }
  return environment.restore_store(trial.path, store);
}

}  // namespace sherd::desk
