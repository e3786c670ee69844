#pragma once

#include <array>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/result.h"
#include "desk/frame/session.h"
#include "model/table.h"

namespace sherd::desk {

/// What the queue and the search need of one line.
struct LineDigest {
  std::string uid, record, context;
  std::optional<std::int64_t> count, mg;
  bool checked = false;
  std::int64_t changed = 0;
  std::string words;  ///< the searched columns in small letters, each ended by a line break
};

/// Who did a change, when, and what it was called.
struct ChangeAuthor {
  std::string who, at, command;
};

/// The lines of one site in short, and the authors of its changes, as of one change.
struct LinesInShort {
  /// The columns that are searched, in the order of LineDigest::words.
  static constexpr std::array<std::string_view, 10> kSearched{"bag",    "box",       "mark",    "small_find", "vessel",
                                                              "sample", "accession", "drawing", "photo",      "notes"};

  std::vector<LineDigest> lines;  ///< in the order in which they were added, a few late ones at the end
  std::map<std::int64_t, ChangeAuthor> authors;
};

/// Lines in short that follow the record: after changes only the lines that they touched are read again. For a program
/// that answers again and again; used from several threads.
class KeptLines {
 public:
  using Look = std::function<Result<void>(const LinesInShort&)>;
  /// Brings the lines of the session's site up to date and looks at them; no one else does meanwhile.
  Result<void> look(const Session& session, const Look& look);

 private:
  struct Site {
    LinesInShort in_short;
    std::optional<std::int64_t> seq;
    std::string uid;  ///< of that change: another one under its number is another store
    std::unordered_map<std::string, std::size_t> places;  ///< uid -> line
  };
  static Result<void> follow(const Session& session, Site& site);
  static Result<void> rebuild(const Session& session, Site& site);
  static Result<bool> catch_up(const Session& session, Site& site, std::int64_t newest);
  static Result<void> leave_out_removed(const Session& session, Site& site);
  static void add(const Table& table, std::size_t row, Site& site);

  std::mutex mutex_;
  std::map<std::string, Site> sites_;
};

/// Looks at the lines by way of those kept in the environment, or reads them for this once.
Result<void> look_at_lines(const Session& session, const Environment& environment, const KeptLines::Look& look);

}  // namespace sherd::desk
