#include <map>

#include "desk/assemblage/compare_record.h"
#include "desk/assemblage/context_rows.h"
#include "methods/compare/joins.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

class Reader {
 public:
  explicit Reader(const LineRows& rows) : rows_(rows) {
    input_.labels = rows.labels;
    input_.groups.assign(rows.labels.size(), "");
    input_.sherds.assign(rows.labels.size(), 0);
    const Table& lines = rows.fields.lines();
    const Column& record = *lines.find("record");
    const Column& count = *lines.find("count");
    const Column& vessel = *lines.find("vessel");
    const Column* phase = rows.fields.column("context.phase");
    for (const std::uint32_t line : rows.lines) {
      const std::size_t node = rows.row_of(line);
      if (!count.is_null(line)) input_.sherds[node] += count.integer(line);
      if (phase != nullptr && rows.field == "context") input_.groups[node] = cell_text(*phase, line);
      const std::string name = cell_text(record, line);
      lines_.emplace(name, input_.lines.size());
      if (!vessel.is_null(line)) vessels_[cell_text(vessel, line)].push_back(input_.lines.size());
      input_.lines.push_back({node, name});
    }
  }

  std::int64_t read(const std::vector<Join>& joins) {
    std::int64_t outside = 0;
    for (const Join& join : joins) {
      const auto a = lines_.find(join.record_a), b = lines_.find(join.record_b);
      if (a == lines_.end() || b == lines_.end()) {
        ++outside;
        continue;
      }
      input_.ties.push_back({a->second, b->second, true, join.kind == JoinKind::possibly_same});
    }
    for (const auto& [name, lines] : vessels_) {
      for (std::size_t i = 1; i < lines.size(); ++i) input_.ties.push_back({lines[i - 1], lines[i], false, false});
    }
    return outside;
  }

  const compare::JoinInput& input() const { return input_; }

 private:
  const LineRows& rows_;
  compare::JoinInput input_;
  std::map<std::string, std::size_t, std::less<>> lines_;
  std::map<std::string, std::vector<std::size_t>, std::less<>> vessels_;
};

}  // namespace

Result<void> compare_joins(const CompareRequest& request, Environment& environment, Progress&, CompareInput& input,
                           CompareResponse& response) {
  SHERD_TRY(const LineRows rows,
            line_rows(request, environment, "context", {"record", "count", "vessel"}, input, {"context.phase"}));
  SHERD_TRY(const Table table,
            rows.session.store->read({rows.session.site.code, Kind::joins, {"record_a", "record_b", "kind"}, {}}));
  Reader reader(rows);
  const std::int64_t outside = reader.read(rows_from<Join>(table));
  if (outside > 0)
    input.warnings.push_back("left out: " + std::to_string(outside) + " joins of lines that are not compared");
  for (const std::int64_t sherds : reader.input().sherds) input.about.total += static_cast<double>(sherds);
  response.joins = compare::join_network(reader.input());
  return {};
}

}  // namespace sherd::desk
