#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/breakage_rows.h"
#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/residue_rows.h"
#include "methods/compare/key_groups.h"

namespace sherd::desk {

namespace {

Result<compare::KeyGroupSettings> settings_of(const std::vector<std::string>& weights) {
  compare::KeyGroupSettings out;
  for (const std::string& text : weights) {
    const auto equals = text.find('=');
    const std::string name = text.substr(0, equals);
    const auto merit = std::ranges::find(compare::kKeyMerits, name);
    const auto number = equals == std::string::npos ? Result<std::int64_t>(fail("not_a_number", ""))
                                                    : parse_scaled(text.substr(equals + 1), 6);
    if (merit == compare::kKeyMerits.end() || !number) {
      return fail(ErrorKind::usage, "bad_weight", "\"" + text + "\" is not a weight",
                  "for example --weights size=2; there are size, freshness, completeness, residual and dating");
    }
    out.weights[static_cast<std::size_t>(merit - compare::kKeyMerits.begin())] = static_cast<double>(*number) / 1e6;
  }
  return out;
}

/// The specialist's own years where there are both, else the spot range.
Result<std::vector<std::optional<double>>> lengths_of(const ContextRows& contexts, Environment& environment) {
  SHERD_TRY(const auto own, years_of_rows(contexts, YearSource::own, environment));
  SHERD_TRY(const auto spot, years_of_rows(contexts, YearSource::spot, environment));
  std::vector<std::optional<double>> out;
  for (std::size_t i = 0; i < own.size(); ++i) {
    const auto& range = own[i] ? own[i] : spot[i];
    out.push_back(range ? std::optional(static_cast<double>(range->latest->value - range->earliest->value + 1))
                        : std::nullopt);
  }
  return out;
}

}  // namespace

Result<void> compare_key_groups(const CompareRequest& request, Environment& environment, Progress& progress,
                                CompareInput& input, CompareResponse& response) {
  SHERD_TRY(const compare::KeyGroupSettings settings, settings_of(request.weights));
  SHERD_TRY(const auto contexts, context_rows(request, environment, "context", input, progress));
  CompareInput again;
  SHERD_TRY(const LineRows rows, line_rows(request, environment, "context", breakage_columns(), again));
  SHERD_TRY(const compare::Breakage broken, breakage_rows(rows, 0, 1, progress));
  SHERD_TRY(const compare::Residuality residual,
            compare::residuality(row_names(*contexts), residues(*contexts), {.resamples = 0}, progress));
  SHERD_TRY(const auto lengths, lengths_of(*contexts, environment));
  std::vector<compare::KeyGroupFacts> facts;
  for (std::size_t i = 0; i < broken.rows.size(); ++i) {
    const compare::BreakageRow& row = broken.rows[i];
    compare::KeyGroupFacts group{.label = row.label,
                                 .sherds = row.count.value_or(0),
                                 .vessels = {},
                                 .mean_weight_g = row.mean_weight_g,
                                 .abraded_share = row.abraded_share,
                                 .completeness = row.completeness,
                                 .residual_share = residual.rows[i].share,
                                 .years = lengths[i]};
    if (row.vessels) group.vessels = static_cast<double>(*row.vessels);
    facts.push_back(std::move(group));
  }
  SHERD_TRY(response.key_groups,
            compare::key_groups(std::move(facts), broken.total.mean_weight_g.value_or(0), settings));
  return {};
}

}  // namespace sherd::desk
