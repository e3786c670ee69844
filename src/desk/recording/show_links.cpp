#include "desk/recording/show_links.h"

#include <algorithm>
#include <deque>
#include <map>
#include <numeric>
#include <set>

#include "base/text.h"
#include "desk/frame/session.h"
#include "model/kind_spec.h"
#include "model/record.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::size_t kMostLines = 500;

/// Walks from line to line.
class Network {
 public:
  Network(const Session& session, LinksResponse& response) : session_(session), response_(response) {}

  Result<void> walk(const std::string& record) {
    waiting_.emplace_back(record, 0);
    known_.insert(record);
    while (!waiting_.empty()) {
      const auto [next, steps] = waiting_.front();
      waiting_.pop_front();
      if (response_.lines.size() >= kMostLines) {
        response_.cut_off = true;
        break;
      }
      SHERD_CHECK(visit(next, steps));
    }
    std::erase_if(response_.links, [&](const Link& link) { return !place(link.record_a) || !place(link.record_b); });
    return {};
  }

  std::optional<std::size_t> place(const std::string& record) const {
    const auto found = places_.find(record);
    return found == places_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  Result<void> visit(const std::string& record, std::int64_t steps) {
    SHERD_TRY(const auto lines, read({{"record", record}}));
    if (lines.empty()) return {};  // a join may name a line that is gone
    LinkedLine line = lines.front();
    line.steps = steps;
    places_[record] = response_.lines.size();
    response_.lines.push_back(line);
    for (const char* column : {"record_a", "record_b"}) SHERD_CHECK(follow_joins(column, record, steps));
    if (!line.vessel.empty() && vessels_.insert(line.vessel).second) SHERD_CHECK(follow_vessel(line, steps));
    return {};
  }

  Result<std::vector<LinkedLine>> read(std::vector<Having> having) const {
    SHERD_TRY(const Table table, session_.store->read({session_.site.code,
                                                       Kind::sherds,
                                                       {"uid", "record", "context", "fabric", "form", "part", "vessel",
                                                        "count", "vessels", "weight_g", "rim_percent"},
                                                       {},
                                                       std::move(having)}));
    const auto whole = rows_from<RecordLine>(table);
    std::vector<LinkedLine> lines;
    for (std::size_t row = 0; row < whole.size(); ++row) {
      const RecordLine& one = whole[row];
      lines.push_back({std::string(table.find("uid")->text(row)), one.record, one.context, one.fabric, one.form,
                       one.part, one.vessel, one.count, one.vessels, one.weight, one.rim_percent, 0});
    }
    return lines;
  }

  void meet(const std::string& record, std::int64_t steps) {
    if (known_.insert(record).second) waiting_.emplace_back(record, steps + 1);
  }

  Result<void> follow_joins(const std::string& column, const std::string& record, std::int64_t steps) {
    SHERD_TRY(const Table table,
              session_.store->read(
                  {session_.site.code, Kind::joins, {"uid", "record_a", "record_b", "kind"}, {}, {{column, record}}}));
    const auto joins = rows_from<Join>(table);
    for (std::size_t row = 0; row < joins.size(); ++row) {
      const Join& join = joins[row];
      const std::string uid(table.find("uid")->text(row));
      if (!joins_.insert(uid).second) continue;
      response_.links.push_back({uid, join.record_a, join.record_b, join.kind.value_or(JoinKind::same_vessel)});
      meet(join.record_a == record ? join.record_b : join.record_a, steps);
    }
    return {};
  }

  Result<void> follow_vessel(const LinkedLine& line, std::int64_t steps) {
    SHERD_TRY(const auto lines, read({{"vessel", line.vessel}}));
    for (const LinkedLine& other : lines) {
      if (other.record == line.record) continue;
      response_.links.push_back({{}, line.record, other.record, JoinKind::same_vessel});
      meet(other.record, steps);
    }
    return {};
  }

  const Session& session_;
  LinksResponse& response_;
  std::deque<std::pair<std::string, std::int64_t>> waiting_;
  std::set<std::string> known_, joins_, vessels_;
  std::map<std::string, std::size_t> places_;
};

/// Sets of lines that are joined one after the other.
class Sets {
 public:
  explicit Sets(std::size_t size) : parent_(size) { std::iota(parent_.begin(), parent_.end(), std::size_t{0}); }
  std::size_t of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) { parent_[std::max(of(a), of(b))] = std::min(of(a), of(b)); }
  std::int64_t number() {
    std::set<std::size_t> roots;
    for (std::size_t i = 0; i < parent_.size(); ++i) roots.insert(of(i));
    return static_cast<std::int64_t>(roots.size());
  }

 private:
  std::vector<std::size_t> parent_;
};

void add_once(std::vector<std::string>& to, const std::string& text) {
  if (!text.empty() && std::ranges::find(to, text) == to.end()) to.push_back(text);
}

void count_vessels(const Network& network, LinksResponse& response) {
  Sets sure(response.lines.size()), possible(response.lines.size());
  for (const Link& link : response.links) {
    const std::size_t a = *network.place(link.record_a), b = *network.place(link.record_b);
    possible.join(a, b);
    if (link.kind != JoinKind::possibly_same) sure.join(a, b);
  }
  std::map<std::size_t, LinkedVessel> vessels;
  for (std::size_t i = 0; i < response.lines.size(); ++i) {
    const LinkedLine& line = response.lines[i];
    LinkedVessel& vessel = vessels[sure.of(i)];
    vessel.records.push_back(line.record);
    add_once(vessel.contexts, line.context);
    add_once(vessel.names, line.vessel);
    if (line.count) vessel.count = vessel.count.value_or(0) + *line.count;
    if (line.weight) vessel.weight = Weight{(vessel.weight ? vessel.weight->mg : 0) + line.weight->mg};
    if (line.vessels) vessel.counted = vessel.counted.value_or(0) + *line.vessels;
  }
  for (auto& [root, vessel] : vessels) {
    if (vessel.counted.value_or(0) > 1 && vessel.records.size() > 1) {
      response.warnings.push_back("the vessel of records " + join(vessel.records, ", ") + " is counted " +
                                  counted(*vessel.counted, "time") +
                                  ": leave 1 on one of its lines and put 0 on the others");
    }
    response.vessels.push_back(std::move(vessel));
  }
  response.fewest_vessels = possible.number();
}

}  // namespace

Result<LinksResponse> show_links(const LinksRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  LinksResponse response;
  response.record = request.record;
  response.warnings = session.store->warnings();
  Network network(session, response);
  SHERD_CHECK(network.walk(request.record));
  if (response.lines.empty()) return fail("no_record", "there is no record \"" + shortened(request.record, 40) + "\"");
  count_vessels(network, response);
  SHERD_TRY(response.provenance, session.provenance(environment));
  return response;
}

}  // namespace sherd::desk
