#include "desk/chemistry/chemistry_tables.h"

#include <string>

#include "base/text.h"
#include "desk/frame/csv.h"

namespace sherd::desk {

namespace {

using CsvRows = std::vector<std::vector<std::string>>;

std::vector<std::string> numbered(std::vector<std::string> first, const char* what, std::size_t count) {
  for (std::size_t k = 1; k <= count; ++k) first.push_back(what + std::to_string(k));
  return first;
}
void add(std::vector<std::string>& row, const std::vector<double>& values) {
  for (const double value : values) row.push_back(csv_cell(value));
}

CsvRows rows_of(const chemistry::Components& found) {
  const std::size_t shown = found.scores.empty() ? 0 : found.scores[0].values.size();
  CsvRows rows{numbered({"id", "group"}, "component_", shown)};
  for (const chemistry::Score& one : found.scores) {
    rows.push_back({one.id, one.group});
    add(rows.back(), one.values);
  }
  return rows;
}

CsvRows rows_of(const statistics::Clusters& found) {
  CsvRows rows{{"id", "cluster", "silhouette"}};
  for (const statistics::Member& one : found.cut)
    rows.push_back({one.label, csv_cell(one.cluster), csv_cell(one.silhouette)});
  return rows;
}

CsvRows rows_of(const chemistry::Membership& found) {
  CsvRows rows{{"id", "own_group", "group", "probability", "share", "verdict"}};
  for (const chemistry::SampleMembership& one : found.samples) {
    for (const chemistry::Candidate& candidate : one.candidates)
      rows.push_back({one.id, one.group, candidate.group, csv_cell(candidate.probability), csv_cell(candidate.share),
                      one.verdict});
  }
  return rows;
}

CsvRows rows_of(const chemistry::Discriminant& found) {
  CsvRows rows{numbered({"id", "group", "left_out", "posterior"}, "function_", found.trace_share.size())};
  for (const chemistry::Assigned& one : found.samples) {
    rows.push_back({one.id, one.group, one.left_out, csv_cell(one.posterior)});
    add(rows.back(), one.scores);
  }
  return rows;
}

CsvRows rows_of(const chemistry::Manova& found) {
  CsvRows rows{{"variable", "f", "df1", "df2", "p", "within_sd"}};
  for (const chemistry::OneVariable& one : found.univariate)
    rows.push_back({one.variable, csv_cell(one.f), csv_cell(one.df1), csv_cell(one.df2), csv_cell(one.p),
                    csv_cell(one.within_sd)});
  const auto test = [&](const char* name, const chemistry::MeansTest& one) {
    rows.push_back({name, csv_cell(one.f), csv_cell(one.df1), csv_cell(one.df2), csv_cell(one.p), ""});
  };
  test("all: Pillai", found.pillai);
  test("all: Wilks", found.wilks);
  test("all: Hotelling-Lawley", found.hotelling_lawley);
  test("all: Roy", found.roy);
  return rows;
}

CsvRows rows_of(const chemistry::Variation& found) {
  CsvRows rows{{"group", "n", "total", "part", "tau", "total_over_tau"}};
  for (const std::string& part : found.order)
    rows.push_back({"", csv_cell(found.n), csv_cell(found.total), part, csv_cell(found.tau_by_part.at(part)),
                    csv_cell(found.share_by_part.at(part))});
  for (const chemistry::VariationOf& group : found.by_group) {
    for (const std::string& part : group.order)
      rows.push_back({group.group, csv_cell(group.n), csv_cell(group.total), part, csv_cell(group.tau_by_part.at(part)),
                      csv_cell(group.share_by_part.at(part))});
  }
  return rows;
}

CsvRows rows_of(const chemistry::Outliers& found) {
  CsvRows rows{{"id", "group", "part", "value", "low95", "high95", "scale", "t", "df", "p", "p_adjusted"}};
  for (const chemistry::OddCell& one : found.cells)
    rows.push_back({one.id, one.group, one.part, csv_cell(one.value), csv_cell(one.expected[0]),
                    csv_cell(one.expected[1]), one.scale, csv_cell(one.t), csv_cell(one.df), csv_cell(one.p),
                    csv_cell(one.p_adjusted)});
  for (const chemistry::OddSample& one : found.samples)
    rows.push_back({one.id, one.group, "", "", "", "", "all parts", "", "", csv_cell(one.p), csv_cell(one.p_adjusted)});
  return rows;
}

CsvRows rows_of(const chemistry::Dilution& found) {
  CsvRows rows{{"id", "group", "against", "factor", "misfit_before", "misfit_after"}};
  for (const chemistry::Diluted& one : found.diluted)
    rows.push_back({one.id, one.group, one.against, csv_cell(one.factor), csv_cell(one.misfit_before),
                    csv_cell(one.misfit_after)});
  return rows;
}

CsvRows rows_of(const chemistry::Origin& found) {
  CsvRows rows{{"id", "group", "probability", "share", "candidate", "none_of_these"}};
  for (const chemistry::OriginOf& one : found.sherds) {
    const auto list = [&](const std::vector<chemistry::Candidate>& all, const char* candidate) {
      for (const chemistry::Candidate& each : all)
        rows.push_back({one.id, each.group, csv_cell(each.probability), csv_cell(each.share), candidate,
                        one.none_of_these ? "yes" : "no"});
    };
    list(one.candidates, "yes");
    list(one.rejected, "no");
  }
  return rows;
}

CsvRows instrument_rows(const ChemistryResponse& response) {
  CsvRows rows;
  if (response.how == "calibrate") {
    rows.push_back({"analyte", "unit", "line", "a", "se_a", "b", "se_b", "r2", "s", "n", "from", "to"});
    for (const chemistry::Calibration& fit : response.calibrations) {
      rows.push_back({fit.analyte, fit.unit, fit.line, csv_cell(fit.a), fit.se_a ? csv_cell(*fit.se_a) : "",
                      csv_cell(fit.b), csv_cell(fit.se_b), fit.r2 ? csv_cell(*fit.r2) : "", csv_cell(fit.s),
                      csv_cell(fit.n), csv_cell(fit.range[0]), csv_cell(fit.range[1])});
    }
  } else if (response.how == "drift") {
    rows.push_back({"standard", "analyte", "unit", "reading", "taken_at", "value", "sds", "factor", "flag"});
    for (const chemistry::ControlChart& chart : response.charts) {
      for (const chemistry::ChartPoint& point : chart.points)
        rows.push_back({chart.standard, chart.analyte, chart.unit, point.reading, point.taken_at, csv_cell(point.value),
                        csv_cell(point.sds), csv_cell(point.factor), point.flag});
    }
  } else if (response.how == "acceptance") {
    rows.push_back({"analyte", "decision", "decided_by", "r2", "rsd_percent", "error_percent", "zeta",
                    "censored_percent", "reasons"});
    const auto cell = [](const std::optional<double>& value) { return value ? csv_cell(*value) : std::string(); };
    for (const chemistry::Acceptance& each : response.acceptance)
      rows.push_back({each.analyte, each.decision, each.decided_by, cell(each.r2), cell(each.rsd_percent),
                      cell(each.error_percent), cell(each.zeta), cell(each.censored_percent),
                      join(each.reasons, "; ")});
  } else if (response.how == "fabrics") {
    rows.push_back({"fabric", "chem_group", "samples", "ids"});
    for (const FabricCell& each : response.cells)
      rows.push_back({each.fabric, each.group, csv_cell(each.samples), join(each.ids, " ")});
  }
  return rows;
}

CsvRows standard_rows(const std::vector<chemistry::Calibration>& lines) {
  CsvRows rows{{"analyte", "unit", "standard", "certified", "certified_sd", "reported", "reported_sd", "n", "residual",
                "corrected", "left_out_error_percent"}};
  for (const chemistry::Calibration& line : lines) {
    for (const chemistry::CalibrationStandard& one : line.standards)
      rows.push_back({line.analyte, line.unit, one.standard, csv_cell(one.certified), csv_cell(one.certified_sd),
                      csv_cell(one.reported), csv_cell(one.reported_sd), csv_cell(one.n), csv_cell(one.residual),
                      csv_cell(one.corrected), csv_cell(one.left_out_error_percent)});
  }
  return rows;
}

}  // namespace

std::vector<AnswerTable> tables_of(const ChemistryResponse& response) {
  std::vector<AnswerTable> out;
  if (CsvRows rows = instrument_rows(response); !rows.empty()) out.push_back({response.how, std::move(rows)});
  StructureResult::each([&](auto member) {
    if (const auto& found = response.*member) out.push_back({response.how, rows_of(*found)});
  });
  if (!response.calibrations.empty()) out.push_back({"standards", standard_rows(response.calibrations)});
  if (!response.disagreements.empty()) out.push_back({"disagreements", csv_rows(response.disagreements)});
  return out;
}

}  // namespace sherd::desk
