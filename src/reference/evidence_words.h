#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/csv.h"
#include "base/result.h"
#include "model/mark_tables.h"

/// The words that people use for what the table of evidence calls otherwise: data/reference/evidence_words.csv.
namespace sherd::reference {

/// Text by which two spellings of a name are the same: lower case, no points, commas, quotes and brackets, hyphens as
/// blanks, one blank between words, "color", "gray" and "mold" in British spelling, "&" as "and".
std::string folded(std::string_view text);

struct EvidenceWord {
  std::string key;  ///< of the evidence: ware, edge ...
  std::string said, meant;
  bool kind_of = false;  ///< `said` is a name of its own, of a kind of `meant`; else it is another name of it
};

class EvidenceWords {
 public:
  /// Where a name is said twice under a key, the first counts.
  explicit EvidenceWords(std::vector<EvidenceWord> words);

  /// The table's name for what is meant, where `said` is another name of it.
  std::optional<std::string> meant(std::string_view key, std::string_view said) const;
  /// What `value` is a kind of, nearest first, over any number of steps.
  std::vector<std::string> broader(std::string_view key, std::string_view value) const;
  const std::vector<EvidenceWord>& all() const { return words_; }

 private:
  std::vector<EvidenceWord> words_;
  std::map<std::pair<std::string, std::string>, std::string> meant_;  ///< by key and folded name
};

/// Columns key, said, relation (`same` or `kind of`), meant. Error `bad_table`.
Result<std::vector<EvidenceWord>> evidence_words_from(const CsvRows& rows);
/// The wordings of the marks as words of the key `mark`; those of marks without a rule are none.
std::vector<EvidenceWord> words_of_marks(const MarkTables& marks);

/// Both, read once.
const EvidenceWords& evidence_words();

}  // namespace sherd::reference
