// Makes a store of many sites for bench/large: large_store ADDRESS SITES LINES [SEED]. One change a site, through the
// store's own bulk insert. Prints how long that took.
#include <fmt/format.h>

#include <chrono>
#include <cstdlib>
#include <string>

#include "base/random.h"
#include "model/table.h"
#include "store/open.h"

namespace sherd {
namespace {

constexpr std::uint32_t kContexts = 60;
constexpr std::uint32_t kFabrics = 25;
constexpr std::uint32_t kForms = 10;

CellType type_of(std::string_view name) {
  if (name == "count" || name == "rims") return CellType::count;
  if (name == "weight_g") return CellType::weight;
  if (name == "rim_diameter_mm") return CellType::length;
  return name == "rim_percent" ? CellType::percent : CellType::text;
}

Table empty(Kind kind, std::initializer_list<const char*> names) {
  Table table(kind);
  for (const char* name : names) table.add(name, type_of(name));
  return table;
}

Table keys(Kind kind, const char* column, const char* word, std::uint32_t count) {
  Table table = empty(kind, {column});
  for (std::uint32_t i = 1; i <= count; ++i) table.columns()[0].push_text(fmt::format("{}{}", word, i));
  return table;
}

/// Lines of body sherds mostly, some rims, few with notes.
Table lines(std::int64_t count, Random& random) {
  Table table = empty(Kind::sherds, {"record", "context", "fabric", "form", "part", "count", "weight_g",
                                     "rim_diameter_mm", "rim_percent", "notes", "recorder"});
  auto& to = table.columns();
  for (std::int64_t i = 1; i <= count; ++i) {
    const bool is_rim = random.uniform() < 0.15;
    const std::int64_t sherds = 1 + random.geometric(2.0);
    to[0].push_text(std::to_string(i));
    to[1].push_text(fmt::format("{}", 1 + random.below(kContexts)));
    to[2].push_text(fmt::format("ware-{}", 1 + random.below(kFabrics)));
    to[3].push_text(is_rim ? fmt::format("form-{}", 1 + random.below(kForms)) : "");
    to[4].push_text(is_rim ? "rim" : "body");
    to[5].push_integer(sherds);
    to[6].push_integer(100 * (10 + sherds * random.below(250)));
    to[7].push_integer(is_rim ? 1000 * (8 + random.below(24)) : Column::kNull);
    to[8].push_integer(is_rim ? 10 * (5 + random.below(40)) : Column::kNull);
    to[9].push_text(random.uniform() < 0.1 ? fmt::format("sooted outside, bag {}", random.below(500)) : "");
    to[10].push_text("Ann");
  }
  return table;
}

Result<void> make_site(Store& store, std::int64_t number, std::int64_t count, std::uint64_t seed) {
  const std::string code = fmt::format("S{:04}", number);
  Random random(seed, static_cast<std::uint64_t>(number));
  SHERD_TRY(const auto writing,
            store.begin({"site-" + code, "Ann", "2026-01-01T00:00:00Z", "bench", "import sherds " + code + ".csv"}));
  SHERD_CHECK(writing->put_site({code, "Site " + code, {}, {}, {}}));
  SHERD_CHECK(writing->insert(code, keys(Kind::contexts, "context", "", kContexts)));
  SHERD_CHECK(writing->insert(code, keys(Kind::fabrics, "fabric", "ware-", kFabrics)));
  SHERD_CHECK(writing->insert(code, keys(Kind::forms, "form", "form-", kForms)));
  SHERD_CHECK(writing->insert(code, lines(count, random)));
  SHERD_CHECK(writing->commit());
  return {};
}

Result<void> make(const std::string& address, std::int64_t sites, std::int64_t count, std::uint64_t seed) {
  SHERD_TRY(const auto store, store::create(address));
  const auto start = std::chrono::steady_clock::now();
  for (std::int64_t site = 1; site <= sites; ++site) {
    SHERD_CHECK(make_site(*store, site, count / sites + (site <= count % sites ? 1 : 0), seed));
  }
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  fmt::print("{:.1f}\n", took.count());
  return {};
}

}  // namespace
}  // namespace sherd

int main(int argc, char** argv) {
  if (argc != 4 && argc != 5) {
    fmt::print(stderr, "large_store ADDRESS SITES LINES [SEED]\n");
    return 2;
  }
  const std::int64_t sites = std::atoll(argv[2]), count = std::atoll(argv[3]);
  if (sites < 1 || count < sites) {
    fmt::print(stderr, "give one site or more, and no fewer lines than sites\n");
    return 2;
  }
  const auto done = sherd::make(argv[1], sites, count, argc == 5 ? std::strtoull(argv[4], nullptr, 10) : 1);
  if (!done) fmt::print(stderr, "{}\n", done.error().message);
  return done ? 0 : 1;
}
