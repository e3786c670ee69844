#include <algorithm>
#include <cstdlib>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_assemblages.h"
#include "desk/assemblage/compare_tables.h"
#include "desk/report/compose_report.h"

/// What comparing the assemblages of the site with each other says.
namespace sherd::desk {

namespace {

using report::DocumentFigure;
using report::DocumentTable;
using report::Heading;
using report::Paragraph;
using report::Section;

constexpr std::size_t kMostRows = 20, kMostColumns = 9;

bool is_number(const std::string& cell) {
  return !cell.empty() && cell.find_first_not_of("0123456789.-+e") == std::string::npos;
}

/// Three decimals are as much as a page of print has use for.
std::string printed(const std::string& cell) {
  if (!is_number(cell) || cell.find('.') == std::string::npos) return cell;
  const double value = std::strtod(cell.c_str(), nullptr);
  return format_fixed(value, value >= 100 ? 0 : value >= 10 ? 1 : 3);
}

DocumentTable table_of(const AnswerTable& answer, std::string caption, std::string id) {
  DocumentTable table{
      .caption = std::move(caption), .columns = {}, .rows = {}, .total = {}, .note = {}, .id = std::move(id)};
  const std::size_t columns = std::min(answer.rows.front().size(), kMostColumns);
  for (std::size_t i = 0; i < columns; ++i)
    table.columns.push_back({replace_all(answer.rows.front()[i], "_", " "), false});
  for (std::size_t i = 1; i < std::min(answer.rows.size(), kMostRows + 1); ++i) {
    std::vector<std::string>& row = table.rows.emplace_back();
    for (std::size_t column = 0; column < std::min(columns, answer.rows[i].size()); ++column)
      row.push_back(printed(answer.rows[i][column]));
  }
  for (std::size_t column = 1; column < table.columns.size(); ++column) {
    table.columns[column].number = std::ranges::all_of(table.rows, [&](const auto& row) {
      return column >= row.size() || row[column].empty() || is_number(row[column]);
    });
  }
  return table;
}

struct Way {
  const char* how;
  const char* rows;
  const char* title;
  const char* caption;
  const char* id;
};

constexpr Way kWays[]{
    {"similarity", "context.phase", "comparison.phases_title", "comparison.similarity", "similarity"},
    {"key-groups", "context", "comparison.key_groups_title", "comparison.key_groups", "key_groups"},
    {"residuality", "context.phase", "comparison.residuality_title", "comparison.residuality", "residuality"}};

/// Whether a way has nothing to say of this record, rather than the store or the user stopping the work.
bool is_of_method(const Error& error) {
  if (error.kind == ErrorKind::stopped || error.kind == ErrorKind::internal) return false;
  constexpr std::string_view kOfStore[]{"store_busy",  "damaged_store", "disk_full",   "read_only",
                                        "cannot_open", "disk_error",    "store_error", "connection_lost"};
  return std::ranges::find(kOfStore, error.code) == std::end(kOfStore);
}

/// A way that has nothing to say of this record is left out.
Result<void> add_way(const Way& way, const ReportInput& input, const std::string& store, Environment& environment,
                     Progress& progress, Section& section) {
  CompareRequest request{.store = store, .site = input.site.code, .how = way.how, .rows = way.rows};
  request.picture = true;
  request.resamples = 200;
  const auto answer = compare_assemblages(request, environment, progress);
  if (!answer && !is_of_method(answer.error())) return std::unexpected(answer.error());
  if (!answer) return {};
  section.blocks.emplace_back(Heading{input.words(way.title)});
  if (!answer->caution.empty()) section.blocks.emplace_back(Paragraph{answer->caution});
  if (!answer->pictures.empty())
    section.blocks.emplace_back(
        DocumentFigure{input.words(way.caption), answer->pictures.front().svg, std::string(way.id) + "_figure"});
  const std::vector<AnswerTable> tables = tables_of(*answer);
  if (!tables.empty() && tables.front().rows.size() > 1)
    section.blocks.emplace_back(table_of(tables.front(), input.words(way.caption), way.id));
  return {};
}

}  // namespace

Result<std::optional<report::Section>> comparison_section(const ReportInput& input, const std::string& store,
                                                          Environment& environment, Progress& progress) {
  Section section{.id = "comparison", .title = input.words("section.comparison"), .blocks = {}};
  for (const Way& way : kWays) {
    if (input.by_phase.tally.rows.size() > 1) SHERD_CHECK(add_way(way, input, store, environment, progress, section));
  }
  if (section.blocks.empty()) return std::optional<Section>{};
  return std::optional(std::move(section));
}

}  // namespace sherd::desk
