#include <algorithm>
#include <array>
#include <map>

#include "base/text.h"
#include "desk/assemblage/breakage_rows.h"
#include "desk/assemblage/compare_record.h"
#include "notation/condition.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kResamples = 400;

/// Words for the wear of breaks and surfaces: common practice, no source.
bool is_abraded(const std::string& condition) {
  constexpr std::array<std::string_view, 4> kWords{"abraded", "abrasion", "worn", "rolled"};
  for (const notation::ConditionTriple& triple : notation::read_condition(condition)) {
    const std::string type = lower(triple.type);
    if (type.starts_with("not ") || type.starts_with("un")) continue;
    if (std::ranges::any_of(kWords, [&](std::string_view word) { return type.find(word) != std::string::npos; }))
      return true;
  }
  return false;
}

compare::BreakageRow row_of(const quantify::TallyRow& tally, std::string label) {
  compare::BreakageRow out{.label = std::move(label),
                           .lines = tally.lines,
                           .count = tally.count,
                           .vessels = tally.vessels,
                           .weight_g = tally.weight_g,
                           .eve = tally.eve,
                           .mean_weight_g = tally.mean_weight_g,
                           .brokenness = tally.brokenness,
                           .completeness = tally.completeness,
                           .mean_weight_95 = {},
                           .brokenness_95 = {},
                           .completeness_95 = {},
                           .abraded_share = {},
                           .rim_diameter_mm = {}};
  if (tally.intervals) {
    out.mean_weight_95 = tally.intervals->mean_weight_g;
    out.brokenness_95 = tally.intervals->brokenness;
    out.completeness_95 = tally.intervals->completeness;
  }
  return out;
}

/// Condition and rims of lines, added up.
class Wear {
 public:
  explicit Wear(const LineRows& rows)
      : condition_(*rows.fields.lines().find("condition")),
        count_(*rows.fields.lines().find("count")),
        diameter_(*rows.fields.lines().find("rim_diameter_mm")) {}

  void add(std::uint32_t line, compare::BreakageRow& row) {
    if (!condition_.is_null(line) && !count_.is_null(line)) {
      const std::string text = cell_text(condition_, line);
      const auto known = abraded_.try_emplace(text, is_abraded(text)).first;
      row.condition_recorded += count_.integer(line);
      row.abraded += known->second ? count_.integer(line) : 0;
    }
    if (diameter_.is_null(line)) return;
    const double mm = Length{diameter_.integer(line)}.mm();
    row.rim_diameter_mm = row.rim_diameter_mm.value_or(0) + mm;
    ++row.rims_measured;
  }
  static void finish(compare::BreakageRow& row) {
    if (row.condition_recorded > 0)
      row.abraded_share = static_cast<double>(row.abraded) / static_cast<double>(row.condition_recorded);
    if (row.rims_measured > 0) row.rim_diameter_mm = *row.rim_diameter_mm / static_cast<double>(row.rims_measured);
  }

 private:
  const Column& condition_;
  const Column& count_;
  const Column& diameter_;
  std::map<std::string, bool> abraded_;
};

}  // namespace

const std::vector<std::string>& breakage_columns() {
  static const std::vector<std::string> kColumns{"record",  "count",       "weight_g",  "vessels",        "vessel",
                                                 "context", "rim_percent", "condition", "rim_diameter_mm"};
  return kColumns;
}

Result<compare::Breakage> breakage_rows(const LineRows& rows, std::int64_t resamples, std::uint64_t seed,
                                        Progress& progress) {
  SHERD_TRY(const Table rims,
            rows.session.store->read({rows.session.site.code, Kind::rims, {"record", "rim_percent", "vessel"}, {}}));
  quantify::TallyInput tally;
  tally.lines = rows.fields.lines().rows();
  tally.line = quantify::line_columns(rows.fields.lines());
  tally.rim = quantify::rim_columns(rims);
  tally.by = {rows.fields.column(rows.field)};
  tally.only = rows.lines;
  tally.resamples = resamples;
  tally.seed = seed;
  SHERD_TRY(const quantify::Tally found, quantify::tally(tally, progress));
  compare::Breakage out;
  out.rows.resize(rows.labels.size());
  for (const quantify::TallyRow& row : found.rows)
    out.rows[rows.place.find(*row.keys[0])->second] = row_of(row, *row.keys[0]);
  out.total = row_of(found.total, "all");
  Wear wear(rows);
  for (const std::uint32_t line : rows.lines) {
    wear.add(line, out.rows[rows.row_of(line)]);
    wear.add(line, out.total);
  }
  for (compare::BreakageRow& row : out.rows) Wear::finish(row);
  Wear::finish(out.total);
  if (found.intervals) out.note = found.intervals->about;
  return out;
}

Result<void> compare_breakage(const CompareRequest& request, Environment& environment, Progress& progress,
                              CompareInput& input, CompareResponse& response) {
  SHERD_TRY(const LineRows rows, line_rows(request, environment, "context", breakage_columns(), input));
  if (rows.labels.empty())
    return fail("too_few_rows", "no line is left to compare", "choose other lines, or another field");
  SHERD_TRY(response.breakage, breakage_rows(rows, request.resamples.value_or(kResamples),
                                             static_cast<std::uint64_t>(request.seed.value_or(1)), progress));
  input.about.total = static_cast<double>(response.breakage->total.count.value_or(0));
  return {};
}

}  // namespace sherd::desk
