#include "desk/recording/find_similar.h"

#include <algorithm>
#include <array>
#include <set>

#include "base/text.h"
#include "desk/frame/session.h"
#include "model/kind_spec.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kLimit = 10;
constexpr std::size_t kEnough = 5;  ///< sherd weights that make a usual one

struct Asked {
  std::string_view name, value;
  int weight;  ///< a form says more than a part
};

Result<void> from_record(const Session& session, const std::string& record, SimilarResponse& like) {
  SHERD_TRY(const Table table,
            session.store->read(
                {session.site.code, Kind::sherds, {"fabric", "form", "part", "decoration"}, {}, {{"record", record}}}));
  if (table.rows() == 0) return fail("no_record", "there is no record \"" + shortened(record, 40) + "\"");
  like.fabric = table.find("fabric")->text(0);
  like.form = table.find("form")->text(0);
  like.part = table.find("part")->text(0);
  like.decoration = table.find("decoration")->text(0);
  return {};
}

/// The lines of the fabric, column by column, and how well each fits.
class Ranking {
 public:
  Ranking(const Table& table, const SimilarResponse& like)
      : table_(table), asked_{{{"form", like.form, 4}, {"decoration", like.decoration, 2}, {"part", like.part, 1}}} {}

  bool agrees(const Asked& asked, std::size_t row) const {
    return !asked.value.empty() && table_.find(asked.name)->text(row) == asked.value;
  }
  int score(std::size_t row) const {
    int sum = 0;
    for (const Asked& asked : asked_) sum += agrees(asked, row) ? asked.weight : 0;
    return sum;
  }
  int best() const {
    int sum = 0;
    for (const Asked& asked : asked_) sum += asked.value.empty() ? 0 : asked.weight;
    return sum;
  }
  std::vector<std::string> alike(std::size_t row) const {
    std::vector<std::string> names;
    for (const Asked& asked : asked_) {
      if (agrees(asked, row)) names.emplace_back(asked.name);
    }
    return names;
  }

 private:
  const Table& table_;
  std::array<Asked, 3> asked_;
};

std::optional<double> usual_weight(const Table& table, const std::vector<std::uint32_t>& rows) {
  std::vector<double> weights;
  const Column& count = *table.find("count");
  const Column& weight = *table.find("weight_g");
  for (const std::uint32_t row : rows) {
    if (count.is_null(row) || weight.is_null(row) || count.integer(row) < 1) continue;
    weights.push_back(Weight{weight.integer(row)}.g() / static_cast<double>(count.integer(row)));
  }
  if (weights.size() < kEnough) return std::nullopt;
  std::ranges::sort(weights);
  const std::size_t middle = weights.size() / 2;
  return weights.size() % 2 == 1 ? weights[middle] : (weights[middle - 1] + weights[middle]) / 2;
}

/// The best rows, the newest of equals first; rows come oldest first.
std::vector<std::uint32_t> best_rows(const Ranking& ranking, const Table& table, std::string_view without,
                                     std::size_t limit) {
  std::vector<std::pair<int, std::uint32_t>> scored;
  for (std::uint32_t row = 0; row < table.rows(); ++row) {
    if (table.find("record")->text(row) != without) scored.emplace_back(-ranking.score(row), row);
  }
  const auto before = [](const auto& a, const auto& b) {
    return a.first != b.first ? a.first < b.first : a.second > b.second;
  };
  const auto end = scored.begin() + static_cast<std::ptrdiff_t>(std::min(limit, scored.size()));
  std::partial_sort(scored.begin(), end, scored.end(), before);
  std::vector<std::uint32_t> rows;
  for (auto one = scored.begin(); one != end; ++one) rows.push_back(one->second);
  return rows;
}

Result<void> put_lines(const Session& session, const Table& table, const Ranking& ranking,
                       const std::vector<std::uint32_t>& rows, SimilarResponse& response) {
  for (const std::uint32_t row : rows) {
    SimilarLine similar;
    similar.uid = table.find("uid")->text(row);
    similar.alike = ranking.alike(row);
    SHERD_TRY(const Table whole,
              session.store->read({session.site.code, Kind::sherds, {}, {}, {{"uid", similar.uid}}}));
    auto lines = rows_from<RecordLine>(whole);
    if (lines.empty()) continue;
    similar.line = std::move(lines.front());
    response.lines.push_back(std::move(similar));
  }
  return {};
}

}  // namespace

Result<SimilarResponse> find_similar(const SimilarRequest& request, Environment& environment, Progress&) {
  const std::int64_t limit = request.limit.value_or(kLimit);
  if (limit < 1) return fail(ErrorKind::usage, "bad_number", "limit is at least 1");
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SimilarResponse response;
  response.fabric = request.fabric;
  response.form = request.form;
  response.part = request.part;
  response.decoration = request.decoration;
  if (!request.record.empty()) SHERD_CHECK(from_record(session, request.record, response));
  if (response.fabric.empty())
    return fail(ErrorKind::usage, "no_fabric", "say what the line is like", "give at least its fabric, or its record");
  SHERD_TRY(const Table table,
            session.store->read({session.site.code,
                                 Kind::sherds,
                                 {"uid", "record", "context", "form", "part", "decoration", "count", "weight_g"},
                                 {},
                                 {{"fabric", response.fabric}}}));
  const Ranking ranking(table, response);
  response.of_fabric = static_cast<std::int64_t>(table.rows());
  std::set<std::uint32_t> contexts(table.find("context")->codes().begin(), table.find("context")->codes().end());
  response.contexts = static_cast<std::int64_t>(contexts.size());
  std::vector<std::uint32_t> alike;
  for (std::uint32_t row = 0; row < table.rows(); ++row) {
    if (ranking.score(row) == ranking.best()) alike.push_back(row);
  }
  response.alike_in_all = static_cast<std::int64_t>(alike.size());
  response.usual_weight_g = usual_weight(table, alike);
  const auto rows = best_rows(ranking, table, request.record, static_cast<std::size_t>(limit));
  SHERD_CHECK(put_lines(session, table, ranking, rows, response));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

}  // namespace sherd::desk
