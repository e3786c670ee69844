#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print_chemistry.h"
#include "cli/text_table.h"

/// Structure among compositions.
namespace sherd::cli {

namespace {

constexpr std::size_t kMostRows = 60;
constexpr std::size_t kMostColumns = 10;

std::string number(double value, int places) { return std::isfinite(value) ? format_fixed(value, places) : "-"; }
std::string number(const std::optional<double>& value, int places) { return value ? number(*value, places) : "-"; }
/// Four figures, whatever the size.
std::string figures(double value) { return std::isfinite(value) ? fmt::format("{:.4g}", value) : "beyond"; }
std::string chance(double p) { return p < 0.0001 ? "below 0.0001" : format_fixed(p, 4); }
std::string percent(double p) { return p < 0.0001 ? "<0.01" : format_fixed(100 * p, p < 0.01 ? 2 : 1); }
std::string in_group(const std::string& group) { return group.empty() ? "-" : group; }

std::string rest_of(std::size_t all, const char* what) {
  if (all <= kMostRows) return {};
  return fmt::format("{} more {}; --csv or --json has all of them.\n", grouped(static_cast<long long>(all - kMostRows)),
                     what);
}
std::string notes(const std::vector<std::string>& all) {
  std::string out;
  for (const std::string& note : all) out += note + "\n";
  return out;
}

std::string made(const chemistry::Preparation& how) {
  std::string out = fmt::format(
      "{} by {}, {}{}\n", counted(how.samples, "sample"), counted(static_cast<long long>(how.parts.size()), "part"),
      how.transform == "none" ? "as measured" : how.transform, how.zero_rule.empty() ? "" : "; " + how.zero_rule);
  for (const chemistry::Replaced& one : how.replaced) {
    out += fmt::format("  {}: {} below the limit, {} zero, {} to {} put in\n", one.part, one.below, one.zeros,
                       figures(one.least), figures(one.most));
  }
  if (!how.left_out_samples.empty()) out += "  left out for missing cells: " + join(how.left_out_samples, ", ") + "\n";
  if (!how.left_out_parts.empty()) out += "  left out for missing cells: " + join(how.left_out_parts, ", ") + "\n";
  return out + "\n";
}

std::string text_of(const chemistry::Components& found) {
  TextTable values({"component", "eigenvalue", "%", "together"});
  double sum = 0;
  const std::size_t shown = std::min<std::size_t>(found.eigenvalues.size(), kMostColumns);
  for (std::size_t k = 0; k < shown; ++k) {
    sum += found.shares[k];
    values.row(
        {std::to_string(k + 1), figures(found.eigenvalues[k]), number(100 * found.shares[k], 2), number(100 * sum, 2)});
  }
  const std::size_t axes = found.scores.empty() ? 0 : std::min<std::size_t>(4, found.scores[0].values.size());
  std::vector<std::string> headings{"variable", "mean", "sd"};
  std::vector<std::string> places{"sample", "group"};
  for (std::size_t k = 1; k <= axes; ++k) {
    headings.push_back(fmt::format("loading {}", k));
    places.push_back(fmt::format("component {}", k));
  }
  TextTable loadings(headings);
  for (std::size_t j = 0; j < found.variables.size(); ++j) {
    std::vector<std::string> row{found.variables[j], figures(found.means[j]), figures(found.sds[j])};
    for (std::size_t k = 0; k < axes; ++k) row.push_back(number(found.loadings[j][k], 4));
    loadings.row(std::move(row));
  }
  TextTable scores(places);
  for (std::size_t i = 0; i < std::min(found.scores.size(), kMostRows); ++i) {
    std::vector<std::string> row{found.scores[i].id, in_group(found.scores[i].group)};
    for (std::size_t k = 0; k < axes; ++k) row.push_back(number(found.scores[i].values[k], 4));
    scores.row(std::move(row));
  }
  return (found.standardised ? "Of correlations: variables scaled by their standard deviations\n"
                             : "Of covariances: variables as they are\n") +
         values.text() + "\n" + loadings.text(24) + "\n" + scores.text(24) + rest_of(found.scores.size(), "samples");
}

std::string text_of(const statistics::Clusters& found) {
  std::string out = fmt::format("{} ({}), distance {}\n", found.linkage, found.linkage_note, found.distance);
  if (found.cophenetic) out += "cophenetic correlation " + number(found.cophenetic, 4) + "\n";
  if (found.within)
    out += fmt::format("sum of squares within {} of {}, reached by {} of {} starts\n", number(found.within, 4),
                       number(found.total, 4), found.reached.value_or(0), found.starts.value_or(0));
  if (!found.silhouette_by_k.empty()) {
    out += "mean silhouette of";
    for (std::size_t k = 0; k < found.silhouette_by_k.size(); ++k)
      out += fmt::format("{} {}: {}", k == 0 ? "" : ",", k + 2, number(found.silhouette_by_k[k], 3));
    out += "\n";
  }
  if (found.adjusted_rand)
    out += "agreement with the groups, adjusted for chance: " + number(found.adjusted_rand, 4) + "\n";
  TextTable table({"cluster", "n", "samples"});
  std::int64_t clusters = 0;
  for (const statistics::Member& one : found.cut) clusters = std::max(clusters, one.cluster);
  for (std::int64_t cluster = 1; cluster <= clusters; ++cluster) {
    std::vector<std::string> names;
    for (const statistics::Member& one : found.cut) {
      if (one.cluster == cluster) names.push_back(one.label + (one.silhouette < 0 ? "?" : ""));
    }
    table.row({std::to_string(cluster), std::to_string(names.size()), join(names, " ")});
  }
  return out + "\n" + table.text(110) + "?: nearer to another cluster than to its own\n";
}

std::string refused(const std::vector<chemistry::RefusedGroup>& all) {
  std::string out;
  for (const chemistry::RefusedGroup& one : all)
    out += fmt::format("not measured against: {} {}: {}\n", one.group, one.reason, one.way_out);
  return out;
}

std::string text_of(const chemistry::Membership& found) {
  std::string out =
      fmt::format("Probability of membership, each member left out of its own group; below {} % is none\n",
                  format_double(100 * found.level));
  std::vector<std::string> headings{"sample", "group"};
  const std::size_t shown = std::min(found.groups.size(), kMostColumns);
  for (std::size_t g = 0; g < shown; ++g)
    headings.push_back(fmt::format("{} (n {}, p {})", found.groups[g].group, found.groups[g].n, found.groups[g].p));
  headings.emplace_back("reads as");
  TextTable table(headings);
  for (std::size_t i = 0; i < std::min(found.samples.size(), kMostRows); ++i) {
    const chemistry::SampleMembership& one = found.samples[i];
    std::vector<std::string> row{one.id, in_group(one.group)};
    for (std::size_t g = 0; g < shown; ++g) {
      const auto at = std::ranges::find(one.candidates, found.groups[g].group, &chemistry::Candidate::group);
      row.push_back(at == one.candidates.end() ? "-" : percent(at->probability));
    }
    row.push_back(one.words);
    table.row(std::move(row));
  }
  out += table.text(70) + rest_of(found.samples.size(), "samples") + refused(found.refused);
  if (!found.pairs.empty()) {
    TextTable pairs({"groups", "", "distance squared", "T2", "F", "df", "p"});
    for (const chemistry::GroupPair& one : found.pairs) {
      pairs.row({one.a, one.b, figures(one.distance2), figures(one.t2), figures(one.f),
                 fmt::format("{}, {}", one.df1, one.df2), chance(one.p)});
    }
    out += "\nMeans of groups compared (Hotelling)\n" + pairs.text(24);
  }
  return out + "\n" + notes(found.notes);
}

TextTable confusion(const std::vector<std::string>& labels, const std::vector<std::vector<std::int64_t>>& counts) {
  std::vector<std::string> headings{"group"};
  headings.insert(headings.end(), labels.begin(), labels.end());
  headings.emplace_back("right %");
  TextTable table(headings);
  for (std::size_t i = 0; i < labels.size(); ++i) {
    std::vector<std::string> row{labels[i]};
    std::int64_t sum = 0;
    for (const std::int64_t count : counts[i]) {
      row.push_back(std::to_string(count));
      sum += count;
    }
    row.push_back(number(100 * static_cast<double>(counts[i][i]) / static_cast<double>(sum), 1));
    table.row(std::move(row));
  }
  return table;
}

std::string of_test(const char* name, const chemistry::MeansTest& test) {
  return fmt::format("{} {}, F {} with {} and {} degrees of freedom, p {:.3g}\n", name, figures(test.value),
                     figures(test.f), format_fixed(test.df1, 0),
                     number(test.df2, test.df2 == std::round(test.df2) ? 0 : 1), test.p);
}

std::string text_of(const chemistry::Discriminant& found) {
  std::string out = fmt::format("Each sample left out in turn, and sent to a group by the others: {} of {} right\n",
                                found.right_left_out, found.n);
  out += confusion(found.labels, found.left_out).text(24);
  out += fmt::format("\nSamples put back (flattering, never to be quoted alone): {} of {} right\n",
                     found.right_resubstituted, found.n);
  out += confusion(found.labels, found.resubstitution).text(24);
  out += fmt::format("All sent to the largest group, {} % would be right.\n\n", number(100 * found.by_chance, 1));
  std::vector<std::string> headings{"variable"};
  for (std::size_t k = 0; k < found.trace_share.size(); ++k)
    headings.push_back(fmt::format("function {} ({} %)", k + 1, number(100 * found.trace_share[k], 2)));
  TextTable table(headings);
  for (std::size_t j = 0; j < found.variables.size(); ++j) {
    std::vector<std::string> row{found.variables[j]};
    for (const double value : found.coefficients[j]) row.push_back(number(value, 5));
    table.row(std::move(row));
  }
  out += "Coefficients, scaled to a variance of 1 within groups\n" + table.text(24) + "\n";
  return out + of_test("Pillai", found.pillai) + of_test("Wilks", found.wilks) + "\n" + notes(found.notes);
}

std::string text_of(const chemistry::Manova& found) {
  std::string out = of_test("Pillai", found.pillai) + of_test("Wilks", found.wilks) +
                    of_test("Hotelling-Lawley", found.hotelling_lawley) + of_test("Roy", found.roy) + "\n";
  std::vector<std::string> headings{"variable"};
  for (std::size_t g = 0; g < found.labels.size(); ++g)
    headings.push_back(fmt::format("{} (n {})", found.labels[g], found.n[g]));
  for (const char* what : {"sd within", "F", "p"}) headings.emplace_back(what);
  TextTable table(headings);
  for (std::size_t j = 0; j < found.variables.size(); ++j) {
    std::vector<std::string> row{found.variables[j]};
    for (const auto& mean : found.means) row.push_back(figures(mean[j]));
    row.push_back(figures(found.univariate[j].within_sd));
    row.push_back(figures(found.univariate[j].f));
    row.push_back(chance(found.univariate[j].p));
    table.row(std::move(row));
  }
  return out + "Means of groups, and each variable alone\n" + table.text(24) + "\n" + notes(found.notes);
}

std::string text_of(const chemistry::Variation& found) {
  std::string out = fmt::format("Total variation {} over {}: {}\n", number(found.total, 6),
                                counted(static_cast<long long>(found.parts.size()), "part"), join(found.parts, ", "));
  TextTable table({"part", "varies against the others", "total / that"});
  for (const std::string& part : found.order)
    table.row({part, number(found.tau_by_part.at(part), 6), number(found.share_by_part.at(part), 4)});
  out += table.text() + fmt::format("evenness {}\n", number(found.evenness, 4));
  if (!found.by_group.empty()) {
    TextTable groups({"group", "n", "total variation", "drives it", "varies least", "evenness"});
    for (const chemistry::VariationOf& one : found.by_group)
      groups.row({one.group, std::to_string(one.n), number(one.total, 6), one.order.front(), one.order.back(),
                  number(one.evenness, 4)});
    out += "\n" + groups.text(24);
  }
  return out + "\n" + notes(found.notes);
}

std::string text_of(const chemistry::Outliers& found) {
  std::string out;
  if (found.cells.empty()) {
    out = "No amount stands out from its group.\n";
  } else {
    TextTable table({"sample", "group", "part", "amount", "the others have", "t", "p", "adjusted p", "stands out"});
    for (const chemistry::OddCell& one : found.cells) {
      table.row(
          {one.id, in_group(one.group), one.part, figures(one.value),
           fmt::format("{} to {}", fmt::format("{:.3g}", one.expected[0]), fmt::format("{:.3g}", one.expected[1])),
           number(one.t, 2), fmt::format("{:.2g}", one.p), fmt::format("{:.2g}", one.p_adjusted), one.scale});
    }
    out = "Amounts that the others of the group do not expect\n" + table.text(30);
  }
  if (!found.samples.empty()) {
    TextTable table({"sample", "group", "distance squared, left out", "p", "adjusted p"});
    for (const chemistry::OddSample& one : found.samples)
      table.row({one.id, in_group(one.group), figures(one.distance2_left_out), fmt::format("{:.2g}", one.p),
                 fmt::format("{:.2g}", one.p_adjusted)});
    out += "\nSamples that the others of the group do not expect, all parts together\n" + table.text(30);
  }
  return out + "\n" + notes(found.notes);
}

std::string text_of(const chemistry::Dilution& found) {
  TextTable table({"sample", "group", "against", "factor", "misfit", "after", "reads"});
  for (std::size_t i = 0; i < std::min(found.diluted.size(), kMostRows); ++i) {
    const chemistry::Diluted& one = found.diluted[i];
    table.row({one.id, in_group(one.group), one.against, number(one.factor, 3), number(one.misfit_before, 2),
               number(one.misfit_after, 2), one.words});
  }
  return table.text(70) + rest_of(found.diluted.size(), "samples") + "\n" + notes(found.notes);
}

std::string candidates(const std::vector<chemistry::Candidate>& all) {
  std::vector<std::string> words;
  for (const chemistry::Candidate& one : all) words.push_back(one.group + " " + percent(one.probability) + " %");
  return words.empty() ? "-" : join(words, ", ");
}

std::string text_of(const chemistry::Origin& found) {
  TextTable table({"sherd", "may be of", "rejected"});
  for (std::size_t i = 0; i < std::min(found.sherds.size(), kMostRows); ++i) {
    const chemistry::OriginOf& one = found.sherds[i];
    table.row({one.id, one.none_of_these ? "none of these" : candidates(one.candidates), candidates(one.rejected)});
  }
  TextTable places({"reference group", "place", "n", "east", "north"});
  for (const chemistry::OriginPlace& one : found.places)
    places.row({one.group, one.name, std::to_string(one.n), number(one.east, 0), number(one.north, 0)});
  return table.text(70) + rest_of(found.sherds.size(), "sherds") +
         fmt::format("{} of {}: none of these\n\n", found.none_of_these,
                     counted(static_cast<long long>(found.sherds.size()), "sherd")) +
         places.text(40) + refused(found.refused) + "\n" + notes(found.notes);
}

}  // namespace

std::string structure_text(const desk::ChemistryResponse& response) {
  std::string out;
  if (response.preparation) out += made(*response.preparation);
  desk::StructureResult::each([&](auto member) {
    if (const auto& found = response.*member) out += text_of(*found);
  });
  return out;
}

}  // namespace sherd::cli
