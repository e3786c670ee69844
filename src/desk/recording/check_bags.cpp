#include "desk/recording/check_bags.h"

#include <algorithm>
#include <cstdlib>
#include <map>

#include "desk/frame/session.h"
#include "methods/quantify/natural_order.h"
#include "model/kind_spec.h"
#include "model/record.h"
#include "model/record_more.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kWeightPart = 50;      ///< a fiftieth
constexpr std::int64_t kWeightLeast = 5'000;  ///< mg

struct Natural {
  bool operator()(const std::string& a, const std::string& b) const { return quantify::natural_order(a, b) < 0; }
};
using Bags = std::map<std::string, BagEntry, Natural>;

BagStanding standing_of(const Bag& bag) {
  switch (bag.received.value_or(Received::expected)) {
    case Received::received:
      return BagStanding::received;
    case Received::missing:
      return BagStanding::missing;
    case Received::empty:
      return BagStanding::empty;
    case Received::expected:
      break;
  }
  return BagStanding::expected;
}

Result<Bags> listed_bags(const Session& session) {
  std::vector<std::string> columns = kind_spec(Kind::bags).column_names();
  columns.emplace_back("uid");
  SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::bags, columns, {}}));
  const auto rows = rows_from<Bag>(table);
  Bags bags;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    const Bag& bag = rows[row];
    BagEntry entry;
    entry.bag = bag.bag;
    entry.uid = table.find("uid")->text(row);
    entry.context = bag.context;
    entry.box = bag.box;
    entry.material = bag.material;
    entry.standing = standing_of(bag);
    entry.count = bag.count;
    entry.weight = bag.weight;
    bags.emplace(bag.bag, std::move(entry));
  }
  return bags;
}

Result<void> add_lines(const Session& session, Bags& bags) {
  SHERD_TRY(const Table table,
            session.store->read({session.site.code, Kind::sherds, {"bag", "box", "context", "count", "weight_g"}, {}}));
  const Column& names = *table.find("bag");
  const Column& count = *table.find("count");
  const Column& weight = *table.find("weight_g");
  for (std::size_t row = 0; row < table.rows(); ++row) {
    if (names.is_null(row)) continue;
    const std::string name(names.text(row));
    BagEntry& bag = bags[name];
    if (bag.bag.empty()) {
      bag.bag = name;
      bag.standing = BagStanding::unlisted;
      bag.box = table.find("box")->text(row);
    }
    ++bag.lines;
    if (!count.is_null(row)) bag.count_recorded = bag.count_recorded.value_or(0) + count.integer(row);
    if (!weight.is_null(row))
      bag.weight_recorded = Weight{(bag.weight_recorded ? bag.weight_recorded->mg : 0) + weight.integer(row)};
    const std::string context(table.find("context")->text(row));
    if (std::ranges::find(bag.contexts, context) == bag.contexts.end()) bag.contexts.push_back(context);
  }
  return {};
}

void look_at(BagEntry& bag) {
  if (bag.lines == 0) return;
  if (bag.standing == BagStanding::missing || bag.standing == BagStanding::empty)
    bag.troubles.push_back(BagTrouble::lines_of_missing);
  if (bag.count && bag.count_recorded && bag.count != bag.count_recorded) bag.troubles.push_back(BagTrouble::count);
  if (bag.weight && bag.weight_recorded) {
    const std::int64_t allowed = std::max(kWeightLeast, bag.weight->mg / kWeightPart);
    if (std::abs(bag.weight->mg - bag.weight_recorded->mg) > allowed) bag.troubles.push_back(BagTrouble::weight);
  }
  const bool elsewhere = std::ranges::any_of(
      bag.contexts, [&](const std::string& context) { return !bag.context.empty() && context != bag.context; });
  if (elsewhere || bag.contexts.size() > 1) bag.troubles.push_back(BagTrouble::context);
}

void count_in(const BagEntry& bag, ReceiveResponse& response) {
  switch (bag.standing) {
    case BagStanding::expected:
      ++response.expected;
      break;
    case BagStanding::received:
      ++response.received;
      break;
    case BagStanding::missing:
      ++response.missing;
      break;
    case BagStanding::empty:
      ++response.empty;
      break;
    case BagStanding::unlisted:
      ++response.unlisted;
      break;
  }
  if (!bag.troubles.empty()) ++response.troubled;
}

}  // namespace

Result<ReceiveResponse> check_bags(const ReceiveRequest& request, Environment& environment, Progress&) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  ReceiveResponse response;
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  SHERD_TRY(Bags bags, listed_bags(session));
  SHERD_CHECK(add_lines(session, bags));
  for (auto& [name, bag] : bags) {
    if (!request.box.empty() && bag.box != request.box) continue;
    look_at(bag);
    count_in(bag, response);
    response.bags.push_back(std::move(bag));
  }
  return response;
}

}  // namespace sherd::desk
