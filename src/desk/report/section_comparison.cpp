#include <algorithm>
#include <cstdlib>
#include <span>

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

constexpr std::size_t kMostRows = 20, kMostPhases = 14;

/// How a number of an answer is printed.
enum class Print { text, whole, one, two, percent, limits };

/// A column of a printed table: the answer's own, the words above it.
struct Column {
  const char* field;
  const char* words;
  Print print;
};

constexpr Column kKeyGroups[]{{"label", "context", Print::text},
                              {"rank", "comparison.rank", Print::whole},
                              {"score", "comparison.score", Print::two},
                              {"sherds", "sherds", Print::whole},
                              {"vessels", "vessels", Print::whole},
                              {"mean_weight_g", "g_a_sherd", Print::one},
                              {"abraded_share", "comparison.abraded", Print::percent},
                              {"completeness", "comparison.completeness", Print::two},
                              {"residual_share", "comparison.residual_share", Print::percent},
                              {"years", "comparison.years", Print::whole}};
constexpr Column kResiduality[]{{"label", "phase", Print::text},
                                {"contexts", "contexts", Print::whole},
                                {"tested", "comparison.tested", Print::whole},
                                {"dated", "comparison.dated", Print::whole},
                                {"residual", "comparison.residual", Print::whole},
                                {"share", "comparison.share", Print::percent},
                                {"low95", "comparison.limits", Print::limits},
                                {"weight_share", "comparison.of_weight", Print::percent},
                                {"vessels_share", "comparison.of_vessels", Print::percent}};

std::optional<double> number_of(const std::string& cell) {
  char* end = nullptr;
  const double value = std::strtod(cell.c_str(), &end);
  if (cell.empty() || *end != '\0') return std::nullopt;
  return value;
}

std::string printed(const std::string& cell, Print print) {
  const auto value = number_of(cell);
  if (print == Print::text) return cell;
  if (!value) return "\u2013";
  if (print == Print::percent || print == Print::limits) return format_fixed(100 * *value, 1);
  return format_fixed(*value, print == Print::whole ? 0 : print == Print::one ? 1 : 2);
}

/// Rows of an answer under the columns that print has use for, at most 20 of them, which is said.
DocumentTable table_of(const AnswerTable& answer, std::span<const Column> columns, const report::Words& words) {
  DocumentTable table{.caption = {}, .columns = {}, .rows = {}, .total = {}, .note = {}};
  const std::vector<std::string>& names = answer.rows.front();
  const auto place = [&](std::string_view field) {
    return static_cast<std::size_t>(std::ranges::find(names, field) - names.begin());
  };
  for (const Column& column : columns) table.columns.push_back({words(column.words), column.print != Print::text});
  const std::size_t rows = std::min(answer.rows.size() - 1, kMostRows);
  for (std::size_t i = 1; i <= rows; ++i) {
    std::vector<std::string>& row = table.rows.emplace_back();
    const auto cell = [&](std::string_view field) {
      const std::size_t at = place(field);
      return at < answer.rows[i].size() ? answer.rows[i][at] : std::string();
    };
    for (const Column& column : columns) {
      std::string text = printed(cell(column.field), column.print);
      if (column.print == Print::limits && number_of(cell("low95")) && number_of(cell("high95")))
        text = words("comparison.between", {{"low", text}, {"high", printed(cell("high95"), Print::percent)}});
      row.push_back(std::move(text));
    }
  }
  if (rows + 1 < answer.rows.size())
    table.note =
        words("comparison.first", {{"n", std::to_string(rows)}, {"all", grouped(std::ssize(answer.rows) - 1)}});
  return table;
}

/// Each phase by each; nothing where they are more than a page is wide.
std::optional<DocumentTable> likeness_of(const AnswerTable& answer, const report::Words& words) {
  DocumentTable table{.caption = {}, .columns = {{words("phase"), false}}, .rows = {}, .total = {}, .note = {}};
  if (answer.rows.size() > kMostPhases + 1) return std::nullopt;
  for (std::size_t i = 1; i < answer.rows.front().size(); ++i) table.columns.push_back({answer.rows.front()[i], true});
  for (std::size_t i = 1; i < answer.rows.size(); ++i) {
    std::vector<std::string>& row = table.rows.emplace_back();
    for (std::size_t k = 0; k < answer.rows[i].size(); ++k)
      row.push_back(printed(answer.rows[i][k], k == 0 ? Print::text : Print::whole));
  }
  return table;
}

std::optional<DocumentTable> table_of(std::string_view id, const AnswerTable& answer, const report::Words& words) {
  if (id == "similarity") return likeness_of(answer, words);
  return id == "key_groups" ? table_of(answer, std::span<const Column>(kKeyGroups), words)
                            : table_of(answer, std::span<const Column>(kResiduality), words);
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
  if (tables.empty() || tables.front().rows.size() < 2) return {};
  if (auto table = table_of(way.id, tables.front(), input.words)) {
    table->caption = input.words(way.caption);
    table->id = way.id;
    section.blocks.emplace_back(std::move(*table));
  }
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
