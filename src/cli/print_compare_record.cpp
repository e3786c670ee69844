#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "cli/print_compare.h"
#include "cli/text_table.h"
#include "desk/frame/csv.h"

/// What rests on a record, compared.
namespace sherd::cli {

namespace {

constexpr std::size_t kMostRows = 60;

std::string number(const std::optional<double>& value, int places) {
  return value ? format_fixed(*value, places) : "-";
}
std::string percent(const std::optional<double>& share) { return share ? format_fixed(100 * *share, 1) : "-"; }
std::string whole(const std::optional<std::int64_t>& value) { return value ? grouped(*value) : "-"; }

std::string rest_of(std::size_t all) {
  if (all <= kMostRows) return {};
  return fmt::format("{} more rows; --csv or --json has all of them.\n",
                     grouped(static_cast<long long>(all - kMostRows)));
}

}  // namespace

std::string text_of(const compare::Breakage& found) {
  TextTable table({"row", "sherds", "g", "vessels", "EVE", "g a sherd", "broken", "complete", "abraded %", "rim mm"});
  const auto add = [&](const compare::BreakageRow& row) {
    table.row({row.label, whole(row.count), number(row.weight_g, 1), whole(row.vessels), number(row.eve, 2),
               number(row.mean_weight_g, 1), number(row.brokenness, 1), number(row.completeness, 2),
               percent(row.abraded_share), number(row.rim_diameter_mm, 0)});
  };
  for (std::size_t i = 0; i < std::min(found.rows.size(), kMostRows); ++i) add(found.rows[i]);
  add(found.total);
  return table.text(28) + rest_of(found.rows.size()) +
         "broken: sherds to an EVE. complete: EVE to a vessel. abraded: of sherds whose condition is recorded.\n";
}

std::string text_of(const compare::Residuality& found) {
  TextTable table({"row", "contexts", "tested", "dated", "residual", "%", "95 %", "% of g", "% of vessels"});
  const auto add = [&](const compare::ResidualityRow& row) {
    table.row({row.title.empty() ? row.label : row.label + ": " + row.title, grouped(row.contexts), grouped(row.tested),
               grouped(row.dated), grouped(row.residual), percent(row.share),
               row.low95 ? percent(row.low95) + " to " + percent(row.high95) : "-", percent(row.weight_share),
               percent(row.vessels_share)});
  };
  for (std::size_t i = 0; i < std::min(found.rows.size(), kMostRows); ++i) add(found.rows[i]);
  add(found.total);
  return table.text(34) + rest_of(found.rows.size());
}

std::string text_of(const compare::JoinNetwork& found) {
  std::string out = fmt::format("{} within and {} between; cohesion {}, modularity {}; {}; {} in several\n",
                                counted(found.within, "join"), grouped(found.between), number(found.cohesion, 3),
                                number(found.modularity, 3), counted(found.components, "component"),
                                counted(found.vessels_across, "vessel"));
  TextTable table({"row", "and", "joins", "vessels", "index"});
  for (std::size_t i = 0; i < std::min(found.links.size(), kMostRows); ++i) {
    const compare::JoinLink& link = found.links[i];
    table.row({link.a, link.b, grouped(link.joins), grouped(link.vessels), number(link.index, 4)});
  }
  if (!found.links.empty()) out += "\n" + table.text(28) + rest_of(found.links.size());
  return found.note.empty() ? out : out + found.note + "\n";
}

std::string text_of(const compare::KeyGroups& found) {
  TextTable table(
      {"rank", "row", "score", "sherds", "vessels", "g a sherd", "complete", "residual %", "years", "not known"});
  for (std::size_t i = 0; i < std::min(found.ranked.size(), kMostRows); ++i) {
    const compare::KeyGroup& group = found.ranked[i];
    table.row({std::to_string(group.rank), group.label, number(group.score, 3), grouped(group.sherds),
               number(group.vessels, 0), number(group.mean_weight_g, 1), number(group.completeness, 2),
               percent(group.residual_share), number(group.years, 0),
               group.missing.empty() ? "-" : join(group.missing, ", ")});
  }
  std::vector<std::string> weights;
  for (const auto& [name, weight] : found.weights) weights.push_back(name + " " + weight);
  return table.text(28) + rest_of(found.ranked.size()) + "Weights: " + join(weights, ", ") +
         "; what is not known counts as 0.\n";
}

std::string text_of(const compare::SampleSize& found) {
  std::string out =
      fmt::format("A share of {:g} % within {:g} points, in 95 of 100 samples: {} sherds of a lot without end",
                  100 * found.share, 100 * found.within, grouped(found.simple_n));
  if (found.finite_n) out += fmt::format(", {} of {}", grouped(*found.finite_n), grouped(*found.population));
  out += "\n";
  if (found.design_effect) {
    out += fmt::format(
        "{} sherds a vessel; two sherds are of one with chance {}; design effect {}: all say as much as {} independent "
        "ones\n",
        number(found.sherds_per_vessel, 2), number(found.same_vessel, 5), number(found.design_effect, 2),
        number(found.effective_n, 0));
    out +=
        "For a share among vessels: " +
        (found.clustered_n ? grouped(*found.clustered_n) + " sherds" : std::string("no number of sherds is enough")) +
        "\n";
  }
  if (!found.shares.empty()) {
    TextTable table({"type", "sherds", "%", "95 %", "among vessels", "needed"});
    for (std::size_t i = 0; i < std::min(found.shares.size(), kMostRows); ++i) {
      const compare::SampleShare& share = found.shares[i];
      table.row({share.label, grouped(share.count), number(100 * share.share, 1),
                 number(100 * share.low95, 1) + " to " + number(100 * share.high95, 1),
                 share.low95_clustered
                     ? number(100 * *share.low95_clustered, 1) + " to " + number(100 * *share.high95_clustered, 1)
                     : "-",
                 grouped(share.needed)});
    }
    out += "\n" + table.text(28) + rest_of(found.shares.size());
  }
  return out;
}

}  // namespace sherd::cli
