#pragma once

#include <string>
#include <vector>

#include "desk/frame/session.h"
#include "desk/series/code_change.h"

/// Rows that name a code of the series: by the columns that refer to its kind, and, for codes that other tables hold as
/// plain text (forms and decorations of evidence, wares of scans), by the same text.
namespace sherd::desk {

/// A row of any kind as the outside writes it.
struct TextRow {
  std::string uid, id;
  std::vector<std::string> cells;  ///< in the order of the kind's columns
};

struct CodePlace {
  Kind kind{};
  std::string column;
};
/// Where else a code of this kind may stand; its own table's key is not among them.
std::vector<CodePlace> places_of_code(Kind kind);

/// The rows of `kind` whose `column` is `value`; with `brief`, only their keys and that column are read.
Result<std::vector<TextRow>> rows_having(const Session& session, Kind kind, const std::string& column,
                                         const std::string& value, bool brief = false);
/// The row that defines the code; an `id` of "" where there is none.
Result<TextRow> row_of_code(const Session& session, Kind kind, const std::string& code);
/// The place of a column among the kind's columns.
std::size_t column_place(Kind kind, std::string_view column);
/// All codes of the kind that have a row of their own.
Result<std::vector<std::string>> known_codes(const Session& session, Kind kind);
/// Its row, with an `id` of "" for a decoration that lines name and that has none. Error `unknown_code` with "did you
/// mean".
Result<TextRow> must_know(const Session& session, Kind kind, const std::string& code);

/// Whether any row defines the code or, of a decoration, names it.
Result<bool> is_known(const Session& session, Kind kind, const std::string& code);

/// "grey-1 M; shell-3 12" with one of its codes given another name.
std::string with_code_renamed(const std::string& wares, const std::string& from, const std::string& into);

/// Lets every row that names one of the codes `from` name `into`. Where that would give two rows one key: those that
/// are the same become one; of those that differ, the row under `from` stays where it is, or goes with `drop`, and both
/// are told among the clashes. What fabrics are variants of is left out unless `variants`.
class CodeMove {
 public:
  struct Options {
    bool drop = false, variants = false;
  };
  CodeMove(const Session& session, Kind kind, std::vector<std::string> from, std::string into, Options options)
      : session_(session), kind_(kind), from_(std::move(from)), into_(std::move(into)), options_(options) {}

  Result<void> plan(CodePlan& plan, std::vector<CodeClash>& clashes);

 private:
  Result<void> follow(const CodePlace& place, CodePlan& plan, std::vector<CodeClash>& clashes);
  void meet(const CodePlace& place, const TextRow& row, const TextRow& other, CodePlan& plan,
            std::vector<CodeClash>& clashes) const;
  Result<void> follow_scans(CodePlan& plan);

  const Session& session_;
  Kind kind_;
  std::vector<std::string> from_;
  std::string into_;
  Options options_;
};

}  // namespace sherd::desk
