#include <fmt/format.h>

#include "cli/print.h"
#include "desk/frame/csv.h"

/// Assemblages compared, as tables.
namespace sherd::cli {

namespace {

using desk::csv_cell;

CsvRows points_rows(const compare::Ordination& found) {
  const std::size_t axes = found.rows.empty() ? 0 : found.rows.front().principal.size();
  CsvRows out{{"side", "label", "mass", "inertia"}};
  for (const char* what : {"standard", "principal", "contribution", "quality"}) {
    for (std::size_t k = 1; k <= axes; ++k) out[0].push_back(fmt::format("{}_{}", what, k));
  }
  const auto add = [&](const char* side, const std::vector<compare::Point>& all) {
    for (const compare::Point& point : all) {
      std::vector<std::string> row{side, point.label, csv_cell(point.mass), csv_cell(point.inertia)};
      for (const auto* values : {&point.standard, &point.principal, &point.contribution, &point.quality}) {
        for (std::size_t k = 0; k < axes; ++k) row.push_back(k < values->size() ? csv_cell((*values)[k]) : "");
      }
      out.push_back(std::move(row));
    }
  };
  add("row", found.rows);
  add("column", found.columns);
  add("row beside", found.supplementary_rows);
  return out;
}

CsvRows similarity_rows(const compare::Similarity& found) {
  CsvRows out{{"label"}};
  out[0].insert(out[0].end(), found.labels.begin(), found.labels.end());
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    std::vector<std::string> row{found.labels[i]};
    for (const double value : found.matrix[i]) row.push_back(csv_cell(value));
    out.push_back(std::move(row));
  }
  return out;
}

CsvRows bar_rows(const compare::Ordering& found) {
  CsvRows out{{"place", "label", "total"}};
  out[0].insert(out[0].end(), found.types.begin(), found.types.end());
  for (std::size_t i = 0; i < found.bars.size(); ++i) {
    std::vector<std::string> row{std::to_string(i + 1), found.bars[i].label, csv_cell(found.bars[i].total)};
    for (const double value : found.bars[i].percent) row.push_back(csv_cell(value));
    out.push_back(std::move(row));
  }
  return out;
}

CsvRows cell_rows(const compare::Difference& found) {
  CsvRows out{{"row", "column", "amount", "expected", "adjusted_residual", "share", "share_low95", "share_high95"}};
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    for (std::size_t j = 0; j < found.types.size(); ++j) {
      const compare::Share& share = found.shares[i * found.types.size() + j];
      out.push_back({found.labels[i], found.types[j], csv_cell(found.pseudo_counts[i][j]),
                     csv_cell(found.expected[i][j]), csv_cell(found.adjusted_residuals[i][j]), csv_cell(share.share),
                     csv_cell(share.low95), csv_cell(share.high95)});
    }
  }
  return out;
}

CsvRows curve_rows(const compare::FallOff& found) {
  CsvRows out;
  for (const compare::FallOffGroup& group : found.groups) {
    CsvRows rows = desk::csv_rows(group.curves);
    for (std::size_t i = out.empty() ? 0 : 1; i < rows.size(); ++i) {
      rows[i].insert(rows[i].begin(), i == 0 ? "places" : group.group.empty() ? "all" : group.group);
      out.push_back(std::move(rows[i]));
    }
  }
  return out;
}

}  // namespace

CsvRows table_of(const desk::CompareResponse& response) {
  if (response.ordination) return points_rows(*response.ordination);
  if (response.similarity) return similarity_rows(*response.similarity);
  if (response.order) return bar_rows(*response.order);
  if (response.diversity) return desk::csv_rows(response.diversity->rows);
  if (response.clusters) return desk::csv_rows(response.clusters->cut);
  if (response.difference) return cell_rows(*response.difference);
  if (response.distance) return curve_rows(*response.distance);
  return {};
}

}  // namespace sherd::cli
