#include "desk/site/import_given.h"

#include <algorithm>
#include <array>

#include "base/base64.h"
#include "base/text.h"
#include "desk/chemistry/import_as_table.h"
#include "desk/frame/change_uid.h"
#include "desk/frame/given_files.h"
#include "exchange/headings.h"
#include "exchange/mapping.h"
#include "exchange/sheets/row_source.h"
#include "exchange/synonyms.h"
#include "model/kind_spec.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kMappingName = "the mapping";

/// A browser may give the whole path where the file lay; who reads the history needs its name.
std::string plain_name(const std::string& name) { return std::string(trim(name.substr(name.find_last_of("/\\") + 1))); }

/// What the page can put right once it has the headings before it.
bool is_of_headings(const Error& error) {
  constexpr std::array<std::string_view, 4> kCodes{"missing_column", "column_twice", "no_heading", "eve_ambiguous"};
  return std::ranges::find(kCodes, error.code) != kCodes.end();
}

/// The headings, and what each is taken for by the mapping, else by itself, where the table as a whole is not
/// understood.
Result<std::vector<UnderstoodHeading>> headings_alone(const std::string& bytes, const ImportRequest& request,
                                                      const std::string& mapping_text) {
  const auto kind = kind_named(request.as);
  if (!kind) return std::vector<UnderstoodHeading>{};
  SHERD_TRY(const auto source, exchange::open_table(bytes, request.file, request.sheet));
  exchange::SheetRow row;
  SHERD_TRY(const bool any, source->next(row));
  std::vector<UnderstoodHeading> out;
  for (const exchange::Cell& cell : row.cells) {
    const std::string heading(trim(cell.text));
    if (!any || heading.empty()) continue;
    const std::string folded = exchange::folded_heading(heading);
    const auto synonym = exchange::find_synonym(request.as, folded);
    const bool is_column = kind_spec(*kind).column(folded) != nullptr;
    out.push_back({heading, is_column ? folded : synonym ? synonym->column : std::string()});
  }
  const auto mapping = exchange::read_mapping(mapping_text.empty() ? "{}" : mapping_text, *kind);
  if (!mapping) return out;
  for (const auto& [column, rule] : mapping->columns) {
    for (UnderstoodHeading& each : out) {
      if (std::ranges::find(rule.from, each.heading) != rule.from.end()) each.as = column;
    }
  }
  return out;
}

}  // namespace

Result<ImportResponse> import_given(const GivenTableRequest& request, Environment& environment, Progress& progress) {
  const std::string name = plain_name(request.name);
  if (name.empty()) return fail(ErrorKind::usage, "no_name", "the file has no name", "finds.csv, finds.xlsx");
  if (!request.change.empty() && !is_uid(request.change))
    return fail(ErrorKind::usage, "bad_request", std::string(kNoUid));
  SHERD_TRY(const std::string bytes, base64_decoded(request.base64));
  const std::string mapping = trim(request.mapping).empty() ? std::string() : std::string(kMappingName);
  GivenFiles files({{name, bytes}, {std::string(kMappingName), request.mapping}});
  Environment with_files = environment;
  with_files.files = &files;
  with_files.user = by_hand(request.who, environment.user);
  if (!request.change.empty()) with_files.new_uid = [uid = request.change] { return uid; };
  const ImportRequest wanted{.store = request.store,
                             .file = name,
                             .as = request.as,
                             .columns = mapping,
                             .sheet = request.sheet,
                             .site = request.site,
                             .keep_good = request.keep_good,
                             .new_codes = request.new_codes,
                             .update = request.update,
                             .again = request.again,
                             .dry_run = request.dry_run};
  SHERD_TRY(auto amounts,
            import_amounts(wanted, {request.units, request.errors, request.prefix}, with_files, progress));
  if (amounts) return std::move(*amounts);
  auto answer = import_table(wanted, with_files, progress);
  if (answer || !is_of_headings(answer.error())) return answer;
  ImportResponse with_headings;
  SHERD_TRY(with_headings.headings, headings_alone(bytes, wanted, request.mapping));
  with_headings.kind = request.as;
  with_headings.errors.push_back(answer.error());
  return with_headings;
}

}  // namespace sherd::desk
