#include "desk/assemblage/compare_tables.h"

#include <fmt/format.h>

#include "desk/frame/csv.h"

namespace sherd::desk {

namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows points_rows(const compare::Ordination& found) {
  const std::size_t axes = found.rows.empty() ? 0 : found.rows.front().principal.size();
  Rows out{{"side", "label", "mass", "inertia"}};
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
  add("column beside", found.supplementary_columns);
  return out;
}

Rows similarity_rows(const compare::Similarity& found) {
  Rows out{{"label"}};
  out[0].insert(out[0].end(), found.labels.begin(), found.labels.end());
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    std::vector<std::string> row{found.labels[i]};
    for (const double value : found.matrix[i]) row.push_back(csv_cell(value));
    out.push_back(std::move(row));
  }
  return out;
}

Rows bar_rows(const compare::Ordering& found) {
  Rows out{{"place", "label", "total"}};
  out[0].insert(out[0].end(), found.types.begin(), found.types.end());
  for (std::size_t i = 0; i < found.bars.size(); ++i) {
    std::vector<std::string> row{std::to_string(i + 1), found.bars[i].label, csv_cell(found.bars[i].total)};
    for (const double value : found.bars[i].percent) row.push_back(csv_cell(value));
    out.push_back(std::move(row));
  }
  return out;
}

Rows cell_rows(const compare::Difference& found) {
  Rows out{{"row", "column", "amount", "expected", "adjusted_residual", "share", "share_low95", "share_high95"}};
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

Rows curve_rows(const compare::FallOff& found) {
  Rows out;
  for (const compare::FallOffGroup& group : found.groups) {
    Rows rows = csv_rows(group.curves);
    for (std::size_t i = out.empty() ? 0 : 1; i < rows.size(); ++i) {
      rows[i].insert(rows[i].begin(), i == 0 ? "places" : group.group.empty() ? "all" : group.group);
      out.push_back(std::move(rows[i]));
    }
  }
  return out;
}

template <class T>
void add(std::vector<AnswerTable>& out, const char* title, const std::vector<T>& objects) {
  if (!objects.empty()) out.push_back({title, csv_rows(objects)});
}

void add_tables(const compare::Ordination& found, std::vector<AnswerTable>& out) {
  out.push_back({"points", points_rows(found)});
  Rows axes{{"axis", "eigenvalue", "share_of_inertia"}};
  for (std::size_t k = 0; k < found.eigenvalues.size(); ++k)
    axes.push_back({std::to_string(k + 1), csv_cell(found.eigenvalues[k]), csv_cell(found.inertia_shares[k])});
  out.push_back({"axes", std::move(axes)});
  if (!found.dates) return;
  add(out, "dates of rows", found.dates->rows);
  add(out, "dates of columns", found.dates->columns);
}

void add_tables(const compare::Similarity& found, std::vector<AnswerTable>& out) {
  out.push_back({"similarity", similarity_rows(found)});
  if (found.draws == 0) return;
  Rows p{{"label"}};
  p[0].insert(p[0].end(), found.labels.begin(), found.labels.end());
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    p.push_back({found.labels[i]});
    for (const auto& value : found.p[i]) p.back().push_back(csv_cell(value));
  }
  out.push_back({"p", std::move(p)});
}

void add_tables(const compare::Ordering& found, std::vector<AnswerTable>& out) {
  out.push_back({"percent in order", bar_rows(found)});
  add(out, "places", found.stability);
}

void add_tables(const compare::Diversity& found, std::vector<AnswerTable>& out) {
  add(out, "diversity", found.rows);
  Rows expected{{"label", "n", "types", "low95", "high95"}};
  for (const compare::DiversityRow& row : found.rows) {
    for (const compare::Expected& one : row.expected_richness)
      expected.push_back({row.label, csv_cell(one.n), csv_cell(one.value), csv_cell(one.low95), csv_cell(one.high95)});
  }
  if (expected.size() > 1) out.push_back({"rarefaction", std::move(expected)});
}

void add_tables(const compare::Clusters& found, std::vector<AnswerTable>& out) {
  add(out, "clusters", found.cut);
  add(out, "steps", found.merges);
}

void add_tables(const compare::Difference& found, std::vector<AnswerTable>& out) {
  out.push_back({"cells", cell_rows(found)});
  add(out, "drivers", found.drivers);
  if (found.log_linear) add(out, "log-linear models", found.log_linear->models);
}

void add_tables(const compare::FallOff& found, std::vector<AnswerTable>& out) {
  out.push_back({"curves", curve_rows(found)});
  add(out, "places", found.places);
}

void add_tables(const compare::Breakage& found, std::vector<AnswerTable>& out) {
  std::vector<compare::BreakageRow> rows = found.rows;
  rows.push_back(found.total);
  add(out, "breakage", rows);
}

void add_tables(const compare::Residuality& found, std::vector<AnswerTable>& out) {
  std::vector<compare::ResidualityRow> rows = found.rows;
  rows.push_back(found.total);
  add(out, "residuality", rows);
}

void add_tables(const compare::JoinNetwork& found, std::vector<AnswerTable>& out) {
  out.push_back({"links", csv_rows(found.links)});
  add(out, "contexts", found.nodes);
}

void add_tables(const compare::KeyGroups& found, std::vector<AnswerTable>& out) {
  add(out, "key groups", found.ranked);
}

void add_tables(const compare::SampleSize& found, std::vector<AnswerTable>& out) {
  add(out, "sample sizes", found.curve);
  add(out, "shares", found.shares);
}

}  // namespace

std::vector<AnswerTable> tables_of(const ComparisonResult& result) {
  std::vector<AnswerTable> out;
  ComparisonResult::each([&](auto member) {
    if (const auto& found = result.*member) add_tables(*found, out);
  });
  return out;
}

}  // namespace sherd::desk
