#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print.h"
#include "cli/print_compare.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// Assemblages compared.
namespace sherd::cli {

namespace {

using desk::csv_cell;
constexpr std::size_t kMostColumns = 12;
constexpr std::size_t kMostRows = 60;

std::string number(double value, int places) { return std::isfinite(value) ? format_fixed(value, places) : "-"; }
std::string number(const std::optional<double>& value, int places) { return value ? number(*value, places) : "-"; }
std::string chance(double p) { return p < 0.0001 ? "below 0.0001" : format_fixed(p, 4); }
std::string chance(const std::optional<double>& p) { return p ? chance(*p) : "-"; }

std::string rest_of(std::size_t shown, std::size_t all, const char* what) {
  if (shown >= all) return {};
  return fmt::format("{} more {}; --csv or --json has all of them.\n", grouped(static_cast<long long>(all - shown)),
                     what);
}

std::string points(const char* side, const std::vector<compare::Point>& all) {
  const std::size_t axes = all.empty() ? 0 : std::min<std::size_t>(3, all.front().principal.size());
  std::vector<std::string> headings{side, "mass"};
  for (std::size_t k = 1; k <= axes; ++k) {
    for (const char* what : {"axis", "contribution", "quality"}) headings.push_back(fmt::format("{} {}", what, k));
  }
  TextTable table(headings);
  for (std::size_t i = 0; i < std::min(all.size(), kMostRows); ++i) {
    std::vector<std::string> row{all[i].label, number(all[i].mass, 3)};
    for (std::size_t k = 0; k < axes; ++k) {
      row.push_back(number(all[i].principal[k], 3));
      row.push_back(k < all[i].contribution.size() ? number(all[i].contribution[k], 3) : "-");
      row.push_back(number(all[i].quality[k], 3));
    }
    table.row(std::move(row));
  }
  return table.text(28) + rest_of(kMostRows, all.size(), side) + "\n";
}

std::string dates(const compare::AxisDates& dates) {
  std::string out = fmt::format("Years by {} ({} dated rows, R squared {}): residual sd {} years, left out {} years.\n",
                                counted(dates.axes, "axis", "axes"), dates.dated, number(dates.r_square, 3),
                                number(dates.residual_sd, 1), number(dates.left_out_sd, 1));
  TextTable table({"row", "given", "year", "95 %", "by the others"});
  for (std::size_t i = 0; i < std::min(dates.rows.size(), kMostRows); ++i) {
    const compare::AxisDate& row = dates.rows[i];
    table.row({row.label, number(row.given, 0), number(row.year, 0),
               number(row.low95, 0) + " to " + number(row.high95, 0), number(row.left_out, 0)});
  }
  return out + table.text(28) + rest_of(kMostRows, dates.rows.size(), "rows") + dates.note + "\n\n";
}

std::string text_of(const compare::Ordination& found) {
  std::string out = fmt::format("Inertia {}", number(found.inertia, 5));
  if (found.chi_square) {
    out += fmt::format(", chi-square {} with {} degrees of freedom, p {}", number(*found.chi_square, 2), found.df,
                       chance(found.p));
  }
  out += "\n\n";
  TextTable table({"axis", "eigenvalue", "% of the inertia", "together"});
  double sum = 0;
  for (std::size_t k = 0; k < std::min<std::size_t>(found.eigenvalues.size(), 10); ++k) {
    sum += found.inertia_shares[k];
    table.row({std::to_string(k + 1), number(found.eigenvalues[k], 5), number(100 * found.inertia_shares[k], 2),
               number(100 * sum, 2)});
  }
  out += table.text() + "\n" + points("rows", found.rows) + points("columns", found.columns);
  if (!found.supplementary_rows.empty()) out += points("rows beside", found.supplementary_rows);
  if (found.dates) out += dates(*found.dates);
  return found.arch_note.empty() ? out : out + found.arch_note + "\n";
}

std::string text_of(const compare::Similarity& found) {
  const std::size_t shown = std::min(found.labels.size(), kMostColumns);
  std::vector<std::string> headings{"200 is the same"};
  headings.insert(headings.end(), found.labels.begin(), found.labels.begin() + static_cast<std::ptrdiff_t>(shown));
  TextTable table(headings);
  for (std::size_t i = 0; i < std::min(found.labels.size(), kMostRows); ++i) {
    std::vector<std::string> row{found.labels[i]};
    for (std::size_t j = 0; j < shown; ++j) {
      const bool chancy = found.p[i][j] && *found.p[i][j] > 0.05;
      row.push_back(number(found.matrix[i][j], 1) + (chancy && i != j ? "?" : ""));
    }
    table.row(std::move(row));
  }
  std::string out = table.text(20) + rest_of(shown, found.labels.size(), "columns");
  if (found.draws > 0) out += "?: two samples of one population are so unlike in more than 1 of 20 draws.\n";
  return out;
}

std::string text_of(const compare::Ordering& found) {
  std::string out;
  for (const compare::OrderFound& one : found.tried) {
    out += fmt::format("by {}: {} anti-Robinson events of {}{}\n", one.method, grouped(one.events),
                       grouped(found.events_possible), one.exhaustive ? ", every order looked at" : "");
  }
  std::vector<std::string> headings{"place", "row", "total"};
  const std::size_t shown = std::min(found.types.size(), kMostColumns);
  headings.insert(headings.end(), found.types.begin(), found.types.begin() + static_cast<std::ptrdiff_t>(shown));
  TextTable table(headings);
  for (std::size_t i = 0; i < std::min(found.bars.size(), kMostRows); ++i) {
    std::vector<std::string> row{std::to_string(i + 1), found.bars[i].label, csv_cell(found.bars[i].total)};
    for (std::size_t j = 0; j < shown; ++j) row.push_back(number(found.bars[i].percent[j], 1));
    table.row(std::move(row));
  }
  out += "\nPercent of each row\n" + table.text(18) + rest_of(shown, found.types.size(), "columns") +
         rest_of(kMostRows, found.bars.size(), "rows");
  if (found.stability.empty()) return out;
  TextTable places({"row", "place by axis", "in 95 % of resamples"});
  for (std::size_t i = 0; i < std::min(found.stability.size(), kMostRows); ++i) {
    const compare::Placing& one = found.stability[i];
    places.row({one.label, std::to_string(one.place), number(one.low95, 0) + " to " + number(one.high95, 0)});
  }
  return out +
         fmt::format("\nStability: Kendall's tau with {} resampled orders {} on average\n", grouped(found.resamples),
                     number(found.agreement, 3)) +
         places.text(28);
}

std::string text_of(const compare::Diversity& found) {
  const std::string common = found.common_n ? fmt::format("types at {}", *found.common_n) : "types at equal n";
  TextTable table(
      {"row", "n", "types", common, "95 %", "Shannon", "evenness", "Simpson", "unbiased", "Chao1", "against all"});
  for (const compare::DiversityRow& row : found.rows) {
    const auto at = std::ranges::find_if(row.expected_richness,
                                         [&](const auto& one) { return found.common_n && one.n == *found.common_n; });
    const bool there = at != row.expected_richness.end();
    table.row({row.label, csv_cell(row.n), std::to_string(row.richness), there ? number(at->value, 2) : "-",
               there ? number(at->low95, 1) + " to " + number(at->high95, 1) : "-", number(row.shannon, 3),
               number(row.evenness, 3), number(row.simpson, 3), number(row.simpson_unbiased, 3), number(row.chao1, 1),
               row.against_all.empty() ? "-" : row.against_all});
  }
  std::string out = table.text(28) +
                    "Shannon in nats; Simpson is the sum of squared shares: 1 is one type alone. Against all: types "
                    "for its size, were all rows one.\n";
  return found.note.empty() ? out : out + found.note + "\n";
}

std::string text_of(const compare::Clusters& found) {
  std::string out = fmt::format("{} ({}), distance {}\n", found.linkage, found.linkage_note, found.distance);
  if (found.cophenetic) out += fmt::format("cophenetic correlation {}\n", number(*found.cophenetic, 4));
  if (found.within) {
    out += fmt::format("sum of squares within {} of {}, reached from {} of {} starts\n", number(*found.within, 2),
                       number(*found.total, 2), *found.reached, *found.starts);
  }
  if (found.silhouette) out += fmt::format("mean silhouette {}\n", number(*found.silhouette, 3));
  if (found.adjusted_rand)
    out += fmt::format("adjusted Rand index against the groups {}\n", number(*found.adjusted_rand, 3));
  if (!found.merges.empty()) {
    TextTable table({"step", "joins", "and", "at", "size"});
    const std::size_t n = found.labels.size();
    const auto name = [&](std::int64_t node) {
      const auto place = static_cast<std::size_t>(node);
      return place < n ? found.labels[place] : "step " + std::to_string(place - n + 1);
    };
    const std::size_t first = found.merges.size() > kMostRows ? found.merges.size() - kMostRows : 0;
    for (std::size_t s = first; s < found.merges.size(); ++s) {
      const compare::Merge& one = found.merges[s];
      table.row({std::to_string(s + 1), name(one.a), name(one.b), number(one.height, 4), std::to_string(one.size)});
    }
    out += "\n" + table.text(28);
  }
  TextTable cut({"row", "cluster", "silhouette"});
  for (std::size_t i = 0; i < std::min(found.cut.size(), kMostRows); ++i)
    cut.row({found.cut[i].label, std::to_string(found.cut[i].cluster), number(found.cut[i].silhouette, 3)});
  return out + "\n" + cut.text(28) + rest_of(kMostRows, found.cut.size(), "rows");
}

std::string models(const compare::LogLinear& found) {
  std::string out = fmt::format("\nLog-linear models of {} ({} cells, {} that cannot be, total {})\n",
                                join(found.sides, " x "), found.cells, found.structural_zeros, number(found.total, 2));
  TextTable table({"terms", "G squared", "chi-square", "df", "p"});
  for (const compare::Model& one : found.models)
    table.row({one.terms, number(one.g_square, 3), number(one.chi_square, 3), std::to_string(one.df), chance(one.p)});
  out += table.text();
  return out + (found.simplest.empty()
                    ? "No model short of all three together fits (p below 0.05 by G squared or chi-square).\n"
                    : "The simplest that fits: " + found.simplest + "\n");
}

std::string text_of(const compare::Difference& found) {
  std::string out = fmt::format("chi-square {} with {} degrees of freedom, p {}; G squared {}, p {}; Cramer's V {}\n",
                                number(found.chi_square, 3), found.df, chance(found.p), number(found.g_square, 3),
                                chance(found.g_p), number(found.cramers_v, 3));
  if (found.p_yates)
    out += fmt::format("with Yates's correction {}, p {}\n", number(found.chi_square_yates, 3), chance(*found.p_yates));
  if (found.p_shuffled) {
    out += fmt::format("p {} by dealing the {} to the rows at random {} times\n", chance(*found.p_shuffled),
                       found.families.empty() ? "pieces" : "vessels", grouped(found.shuffles));
  }
  TextTable rows({"row", found.families.empty() ? "total" : "effective n", "measurable vessels"});
  for (std::size_t i = 0; i < std::min(found.labels.size(), kMostRows); ++i) {
    rows.row({found.labels[i], number(found.n_effective[i], found.families.empty() ? 0 : 2),
              found.families.empty() ? "-" : std::to_string(found.families[i])});
  }
  out += "\n" + rows.text(28);
  if (found.drivers.empty()) {
    out += "\nNo cell lies far from what equal shares would give.\n";
  } else {
    TextTable cells({"row", "column", "found", "expected", "adjusted residual"});
    for (const compare::Driver& one : found.drivers)
      cells.row({one.row, one.column, number(one.observed, 2), number(one.expected, 2), number(one.residual, 2)});
    out += "\nCells that drive it\n" + cells.text(28);
  }
  return found.log_linear ? out + models(*found.log_linear) : out;
}

std::string text_of(const compare::FallOff& found) {
  TextTable table(
      {"places", "n", "curve", "formula", "a", "b", "se of b", "c", "r", "R2 of amounts", "half distance", "note"});
  for (const compare::FallOffGroup& group : found.groups) {
    for (const compare::FallOffCurve& one : group.curves) {
      table.row({group.group.empty() ? "all" : group.group, std::to_string(one.n), one.name, one.formula,
                 number(one.a, 4), number(one.b, 5), number(one.se_b, 5), number(one.exponent, 2), number(one.r, 3),
                 number(one.r_square_amounts, 3), number(one.half_distance, 1), one.note});
    }
  }
  return table.text(70) + (found.zeros_note.empty() ? "" : found.zeros_note + "\n");
}

}  // namespace

std::string text_of(const desk::CompareResponse& response) {
  const std::string columns = response.table.columns > 0 ? " by " + counted(response.table.columns, "column") : "";
  std::string out = fmt::format("{}: {}{}, {} {} in all\n", response.how, counted(response.table.rows, "row"), columns,
                                response.table.measure, csv_cell(response.table.total));
  desk::ComparisonResult::each([&](auto member) {
    if (const auto& found = response.*member) out += text_of(*found);
  });
  out += "\nCaution: " + response.caution + "\n";
  for (const std::string& file : response.files) out += "written: " + file + "\n";
  return out;
}

}  // namespace sherd::cli
