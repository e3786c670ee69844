#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/published.h"

namespace sherd::desk {

Result<std::vector<PublishedAssemblage>> chosen_published(const std::vector<std::string>& with,
                                                          std::vector<PublishedAssemblage> kept) {
  if (std::ranges::find(with, "all") != with.end()) return kept;
  std::vector<std::string> names;
  for (const PublishedAssemblage& one : kept) names.push_back(one.assemblage);
  std::vector<PublishedAssemblage> out;
  for (const std::string& name : with) {
    const auto at = std::ranges::find(kept, name, &PublishedAssemblage::assemblage);
    if (at != kept.end()) {
      out.push_back(*at);
      continue;
    }
    std::string hint = did_you_mean(name, names);
    if (hint.empty())
      hint = names.empty() ? "none is kept: sherdwright add-published STORE --from-file FILE"
                           : "there are " + join(names, ", ");
    return fail("no_row", "no published assemblage \"" + name + "\" is kept", hint);
  }
  return out;
}

namespace {

/// Unlike measures, and unlike classifications, are not compared.
Result<void> check_alike(const PublishedAssemblage& one, const CompareInput& input) {
  if (one.measure != input.about.measure) {
    return fail(
        "unlike_measure",
        fmt::format("\"{}\" is published by {}, and {} is compared", one.assemblage, one.measure, input.about.measure),
        "compare by --measure " + one.measure + ", or leave it out");
  }
  if (one.field == input.column_field) return {};
  return fail(
      "unlike_types",
      fmt::format("\"{}\" is published by {}, and {} is compared", one.assemblage, one.field, input.column_field),
      "compare by --columns " + one.field + ", or leave it out");
}

std::size_t column_for(const std::string& code, compare::CountTable& table) {
  const auto at = std::ranges::find(table.column_labels, code);
  if (at != table.column_labels.end()) return static_cast<std::size_t>(at - table.column_labels.begin());
  statistics::Matrix wider(table.counts.rows, table.counts.columns + 1);
  for (std::size_t i = 0; i < table.counts.rows; ++i) {
    for (std::size_t j = 0; j < table.counts.columns; ++j) wider(i, j) = table.counts(i, j);
  }
  table.counts = std::move(wider);
  table.column_labels.push_back(code);
  return table.column_labels.size() - 1;
}

/// The most by which any share may be wrong where each amount may be half a step more or less, so that their sum may
/// be, too: the share is greatest where its own amount is half a step more and all others are less, and the other way
/// round.
double most_moved_by_rounding(const PublishedAssemblage& one) {
  const double half = one.rounded_to / 2, total = one.total();
  if (!(total > 0)) return 0;
  double all_less = 0;
  for (const PublishedTotal& each : one.totals) all_less += std::max(0.0, each.amount - half);
  const double all_more = total + half * static_cast<double>(one.totals.size());
  double most = 0;
  for (const PublishedTotal& each : one.totals) {
    const double less = std::max(0.0, each.amount - half), more = each.amount + half;
    const double high = more / (more + all_less - less), below = less + all_more - more;
    const double low = below > 0 ? less / below : 0;
    most = std::max({most, high - each.amount / total, each.amount / total - low});
  }
  return most;
}

void add_row(const PublishedAssemblage& one, CompareInput& input) {
  compare::CountTable& table = input.table;
  std::string label = one.assemblage;
  if (std::ranges::find(table.row_labels, label) != table.row_labels.end()) label += " (published)";
  std::vector<std::string> strange;
  for (const PublishedTotal& total : one.totals) {
    if (std::ranges::find(table.column_labels, total.code) == table.column_labels.end()) strange.push_back(total.code);
    static_cast<void>(column_for(total.code, table));
  }
  table.row_labels.push_back(label);
  table.counts.values.resize(table.counts.values.size() + table.counts.columns, 0.0);
  ++table.counts.rows;
  for (const PublishedTotal& total : one.totals)
    table.counts(table.counts.rows - 1, column_for(total.code, table)) += total.amount;
  input.records.add_foreign(label);
  if (!input.years.empty()) input.years.emplace_back();
  if (!input.groups.empty()) input.groups.emplace_back("published");
  std::string said = fmt::format("{}: published, {}", label, one.source);
  if (one.rounded_to > 0) {
    said += fmt::format("; its figures are rounded to {}, which moves a share by {:.1f} points at most",
                        format_double(one.rounded_to), 100 * most_moved_by_rounding(one));
  }
  if (!strange.empty()) said += "; only it has " + join(strange, ", ");
  input.warnings.push_back(std::move(said));
}

}  // namespace

Result<void> add_published_rows(const CompareRequest& request, Environment& environment, CompareInput& input) {
  if (request.how == "difference" && input.about.measure == "eve") {
    return fail("not_for_this", "published totals of EVE hold no vessels to test a difference by",
                "compare them by ordination, similarity or order");
  }
  if (!request.layer.empty())
    return fail(ErrorKind::usage, "not_for_this", "published totals have no third field",
                "leave --layer or --with out");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(auto kept, read_published(session));
  SHERD_TRY(const auto published, chosen_published(request.with, std::move(kept)));
  for (const PublishedAssemblage& one : published) {
    SHERD_CHECK(check_alike(one, input));
    add_row(one, input);
  }
  input.counts = input.counts && compare::whole_numbers(input.table);
  input.provenance.settings["with"] = join(request.with, ", ");
  return {};
}

}  // namespace sherd::desk
