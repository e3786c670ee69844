#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <unordered_map>

#include "base/text.h"
#include "store/merge_replay.h"

namespace sherd {

namespace {

std::unexpected<Error> not_its_parent(const CopyNote& note) {
  return fail("not_its_parent",
              fmt::format("the copy {} was taken after a change that this store does not have", note.name),
              "Merge it into the store from which it was taken. Where that one is a copy itself, merge that one first; "
              "where the store was restored from an older backup, restore a newer one");
}

class Merging {
 public:
  Merging(Store& copy, Store& into, Progress& progress) : copy_(copy), into_(into), progress_(progress) {}

  Result<Merged> run() {
    SHERD_TRY(const auto note, copy_.away().copy_note());
    if (!note) {
      return fail("not_a_copy", "the file is a store of its own, not a copy that was taken away",
                  "Copies are made with: sherdwright copy STORE FILE");
    }
    merged_.copy = *note;
    SHERD_TRY(const std::vector<Change> changes, copy_.changes(0));
    SHERD_CHECK(look_at(changes));
    SHERD_TRY(const auto before, into_.away().conflicts());
    for (const Change& change : changes) {
      if (change.seq > note->base_seq && !here_.contains(change.uid)) last_ = change.seq;
    }
    for (std::size_t i = 0; i < changes.size(); ++i) {
      if (changes[i].seq <= note->base_seq) continue;
      const double done = static_cast<double>(i) / static_cast<double>(changes.size());
      if (!progress_.step(done, "merging")) return fail(ErrorKind::stopped, "stopped", "stopped");
      SHERD_CHECK(replay(changes[i]));
    }
    SHERD_TRY(auto after, into_.away().conflicts());
    for (OpenConflict& one : after) {
      const bool known = std::ranges::any_of(before, [&](const OpenConflict& b) { return b.number == one.number; });
      if (!known) merged_.conflicts.push_back(std::move(one));
    }
    return std::move(merged_);
  }

 private:
  Result<void> look_at(const std::vector<Change>& changes) {
    std::set<std::string> uids;
    for (const Change& change : changes) {
      uids.insert(change.uid);
      uid_of_[change.seq] = change.uid;
    }
    knowledge_ = std::make_shared<store::Knowledge>(std::move(uids));
    SHERD_TRY(const std::vector<Change> here, into_.changes(0));
    for (const Change& change : here) here_.insert(change.uid);
    if (!here_.contains(merged_.copy.base_uid)) return not_its_parent(merged_.copy);
    return {};
  }

  Result<void> replay(const Change& change) {
    if (here_.contains(change.uid)) return pass_over();
    SHERD_TRY(auto tables, copy_.away().table_changes(change.seq));
    CopyChange again{merged_.copy, knowledge_, change.seq == last_, {}, std::move(tables)};
    if (change.undoes) again.undoes = uid_of_[*change.undoes];
    auto writing = into_.begin({change.uid, change.who, change.at, change.origin, change.command});
    if (!writing && writing.error().code == "already_done") return pass_over();
    if (!writing) return std::unexpected(writing.error());
    SHERD_CHECK(look_for_doubles(again));
    SHERD_CHECK((*writing)->replay(again));
    SHERD_TRY(const Change made, (*writing)->commit());
    ++merged_.changes;
    merged_.rows_added += made.rows_added;
    merged_.rows_changed += made.rows_changed;
    merged_.rows_removed += made.rows_removed;
    return {};
  }

  Result<void> pass_over() {
    ++merged_.passed_over;
    return {};
  }

  /// The same file read in on both sides, a document of one name on both.
  Result<void> look_for_doubles(const CopyChange& change) {
    for (const TableChanges& changes : change.tables) {
      for (std::size_t row = 0; changes.table == "import_file" && row < changes.now.rows(); ++row) {
        const auto kind = kind_named(changes.now.find("kind")->text(row));
        const std::string hash(changes.now.find("sha256")->text(row));
        const auto known = kind ? into_.was_imported(changes.site, *kind, hash) : Result<bool>(false);
        if (!known || !*known) continue;
        note(fmt::format("the same file of {} was read in on both sides: its rows may be there twice ({})",
                         kind_spec(*kind).name, change.copy.name));
      }
      for (const Document& document : changes.documents) {
        const auto there = into_.document(changes.site, document.name);
        if (!there || !*there || (*there)->bytes == document.bytes) continue;
        note(fmt::format("{} of {} differs from the one of that name here and may be kept as \"{} (from {})\"",
                         document.name, change.copy.name, document.name, change.copy.name));
      }
    }
    return {};
  }

  void note(std::string text) {
    if (std::ranges::find(merged_.notes, text) == merged_.notes.end()) merged_.notes.push_back(std::move(text));
  }

  Store& copy_;
  Store& into_;
  Progress& progress_;
  Merged merged_;
  std::int64_t last_ = 0;
  std::unordered_map<std::int64_t, std::string> uid_of_;
  std::set<std::string> here_;
  std::shared_ptr<store::Knowledge> knowledge_;
};

}  // namespace

Result<Merged> merge(Store& copy, Store& into, Progress& progress) { return Merging(copy, into, progress).run(); }

}  // namespace sherd
