#pragma once

#include <memory>
#include <string>
#include <vector>

#include "store/dialect.h"
#include "store/store.h"
#include "store/versioned.h"

namespace sherd::store {

/// The store in SQL, on any dialect whose schema is up to date.
class SqlStore final : public Store, public Away, public Whole {
 public:
  /// `warnings`: what was found odd when it was opened, beside what the dialect says.
  explicit SqlStore(std::unique_ptr<Dialect> dialect, std::vector<std::string> warnings = {});
  SqlStore(std::shared_ptr<Connection> connection, std::vector<std::string> warnings);

  Result<std::vector<Site>> sites() override;
  Result<Table> read(const ReadRequest& request) override;
  Result<std::int64_t> count_rows(const std::string& site, Kind kind) override;
  Result<Table> sums(const SumRequest& request) override;
  Result<std::unique_ptr<Writing>> begin(const ChangeNote& note) override;
  Result<Change> undo(std::int64_t seq, const ChangeNote& note) override;
  Result<std::vector<Change>> changes(std::int64_t after_seq) override;
  Result<std::vector<Difference>> differences(std::int64_t seq) override;
  Result<std::optional<Change>> newest_change() override;
  Result<bool> was_imported(const std::string& site, Kind kind, const std::string& sha256) override;
  Result<std::optional<Document>> document(const std::string& site, const std::string& name) override;
  Result<std::vector<std::string>> document_names(const std::string& site, std::string_view prefix) override;
  Result<void> backup(const std::string& file) override;
  Result<std::vector<std::string>> verify() override;
  std::vector<std::string> warnings() const override;
  Away& away() override { return *this; }
  Whole& whole() override { return *this; }

  Result<CopyNote> make_copy(const std::string& file, const std::string& uid, const std::string& name,
                             const std::vector<NumberBlock>& blocks) override;
  Result<std::optional<CopyNote>> copy_note() override;
  Result<std::vector<TableChanges>> table_changes(std::int64_t seq) override;
  Result<std::vector<OpenConflict>> conflicts() override;

  std::vector<std::string> tables() const override;
  std::optional<TableVersions> empty(const std::string& table) const override;
  Result<TableVersions> versions(const std::string& site, const std::string& table) override;
  Result<std::string> bytes(const std::string& sha256, std::int64_t size) override;
  Result<std::int64_t> next_record(const std::string& site) override;
  Result<std::vector<MergedFrom>> merged() override;
  Result<void> fill(const Filling& filling) override;

 private:
  Dialect& dialect() { return *connection_->dialect; }
  /// Runs `work`, which only reads; once more on a new connection where the old one turns out to be lost.
  template <class Work>
  std::invoke_result_t<Work> reading(Work work) {
    auto done = guarded(dialect(), work);
    const bool lost = !done && done.error().code == kConnectionLost && !connection_->writing;
    return lost && dialect().revive() ? guarded(dialect(), work) : done;
  }

  std::shared_ptr<Connection> connection_;
  std::vector<std::string> warnings_;
};

/// The number that the tables have for a site. Error `no_site`. Throws what the database throws.
Result<long long> site_id(Dialect& dialect, const std::string& code);
/// Changes after `after_seq`, oldest first; only that one where `only` is set. Throws what the database throws.
std::vector<Change> load_changes(Dialect& dialect, std::int64_t after_seq, bool only = false);
/// A table with the columns uid and then those of `table`, filled by `where`. Throws what the database throws.
Table fetch_versions(Dialect& dialect, const Versioned& table, const std::string& where,
                     std::span<const std::string> texts = {});

}  // namespace sherd::store
