#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/progress.h"
#include "base/result.h"

/// Copies of a store that are taken away from the network and come back.
namespace sherd {

class Store;

/// What a copy says of itself. A change of the copy after `base_seq` was made in it; those up to there are its
/// parent's.
struct CopyNote {
  std::string uid;   ///< the copy's own; in the parent, the change that leased its numbers has it
  std::string name;  ///< for people: "laptop-b"
  std::int64_t base_seq = 0;
  std::string base_uid;
};

/// Record numbers of one site that a copy may give, both ends included.
struct NumberBlock {
  std::string site;
  std::int64_t first = 0, last = 0;
};

/// Two values for one thing, or a row gone on one side only. `sort` is one of:
///   value     both sides gave the field a value
///   removed   the copy removed a row that has been altered or named here since
///   gone      the copy altered a row that has been removed here
///   named     a row of the copy names one that has been removed here
///   renamed   a row names another that the other side has given a new name (`there`)
///   same_key  two rows have one key
struct OpenConflict {
  std::int64_t number = 0;  ///< never given twice
  std::string site, table, row, column, sort;
  std::string base, here, there;  ///< as cell_text gives them, or words of `sort`
  std::string here_who, here_at, there_who, there_at;
  std::string copy;  ///< the copy's name
};

/// What the user decided. `seen`: refused (`conflict`) where `here` is something else by now.
struct Settlement {
  enum class Take { here, there, value };
  std::int64_t number = 0;
  Take take = Take::here;
  std::string value;  ///< for Take::value, as the outside writes it
  std::optional<std::string> seen;
};

/// `notes`: what a user should look at beside the conflicts, one sentence each.
struct Merged {
  CopyNote copy;
  std::int64_t changes = 0, passed_over = 0;
  std::int64_t rows_added = 0, rows_changed = 0, rows_removed = 0;
  std::vector<OpenConflict> conflicts;  ///< those that it opened
  std::vector<std::string> notes;
};

struct TableChanges;
struct CopyChange;

/// The part of a store that copies need.
class Away {
 public:
  virtual ~Away() = default;
  /// A verified copy in one file that knows its parent's newest change and gives record numbers from its blocks only.
  /// The site of a block must be in the store. Errors: those of Store::backup.
  virtual Result<CopyNote> make_copy(const std::string& file, const std::string& uid, const std::string& name,
                                     const std::vector<NumberBlock>& blocks) = 0;
  /// Nothing where this store is no copy.
  virtual Result<std::optional<CopyNote>> copy_note() = 0;
  /// What a change did to each table of each site, documents with their bytes.
  virtual Result<std::vector<TableChanges>> table_changes(std::int64_t seq) = 0;
  /// By number.
  virtual Result<std::vector<OpenConflict>> conflicts() = 0;
};

/// Every change that was made in `copy`, once more in `into`, each as one change of the same uid, person, time, origin
/// and command. Those that are there already are passed over. Fields go by compare-and-set; where both sides differ,
/// what is in `into` stays and the copy's is kept as an open conflict. Where it stops, what was merged so far is kept,
/// and merging again goes on from there. Errors: `not_a_copy`, `not_its_parent`, and those of both stores.
Result<Merged> merge(Store& copy, Store& into, Progress& progress);

}  // namespace sherd
