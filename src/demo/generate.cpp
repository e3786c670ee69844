#include "demo/generate.h"

#include <algorithm>

#include "demo/book.h"
#include "demo/clay.h"
#include "demo/costs.h"
#include "demo/deposit.h"
#include "demo/plant.h"
#include "demo/profiles.h"
#include "demo/stories.h"

namespace sherd::demo {

namespace {

/// Broken where it lay, with a rim and in many pieces: some of these are put together at the bench and get a word.
bool is_put_together(const Remains& remains, const TrueVessel& vessel, const Context& context, Random& random) {
  if (vessel.origin != Origin::own || context.deposit != Deposit::dump) return false;
  const bool worth_it = remains.sherds() >= 6 && remains.parts.size() >= 2 &&
                        (remains.parts.contains("rim") || remains.parts.contains("profile"));
  return worth_it && random.uniform() < 0.35;
}

struct Fill {
  const Scenario& scenario;
  DemoSite& site;
  std::int64_t next_word = 1;

  Result<std::vector<Draft>> operator()(const Context& context, std::uint64_t stream) {
    Random random(site.seed, stream);
    std::vector<Draft> drafts;
    const auto truth = std::ranges::find(scenario.truth, context.context, &TrueDate::context);
    if (truth == scenario.truth.end())
      return fail(ErrorKind::internal, "bad_table", "built-in table truth: context " + context.context + " is missing");
    for (const Supply& supply : scenario.supply) {
      if (supply.context != context.context) continue;
      for (std::int64_t i = 0; i < supply.vessels; ++i) {
        const auto choice = draw_vessel(supply, scenario.recipes, random);
        if (!choice)
          return fail(ErrorKind::internal, "bad_table",
                      "built-in table supply: no ware for context " + context.context + " from " + supply.source);
        site.vessels.push_back(choice->vessel);
        const Remains remains = break_vessel(*choice, context, truth->began, random);
        const bool has_word = is_put_together(remains, choice->vessel, context, random);
        const std::string word = has_word ? "v-" + std::to_string(next_word++) : "";
        add_remains(drafts, remains, context.context, word, random);
      }
    }
    return drafts;
  }
};

DemoSite start_site(const Scenario& scenario, std::uint64_t seed) {
  DemoSite site;
  site.seed = seed;
  site.contexts = scenario.contexts;
  site.relations = scenario.relations;
  site.phases = scenario.phases;
  site.fabrics = scenario.fabrics;
  site.forms = scenario.forms;
  site.dates = scenario.dates;
  site.truth = scenario.truth;
  return site;
}

}  // namespace

Result<DemoSite> generate(std::uint64_t seed) {
  SHERD_TRY(const Scenario scenario, read_scenario());
  DemoSite site = start_site(scenario, seed);
  Fill fill{scenario, site};
  DraftsOf drafts;
  std::uint64_t stream = 1;
  for (const Context& context : scenario.contexts) {
    SHERD_TRY(drafts[context.context], fill(context, stream++));
  }
  tell_stories(site, drafts);
  add_odd_lines(site, drafts);
  std::vector<std::vector<Draft>> in_order;
  for (const Context& context : scenario.contexts) in_order.push_back(std::move(drafts[context.context]));
  book(site, in_order);
  join_across_contexts(site);
  settle_deposit(site);
  site.costs = cost_book();
  SHERD_CHECK(plant_mistakes(site));
  SHERD_CHECK(measure_vessels(site));
  SHERD_TRY(site.clay, clay_book(site));
  return site;
}

}  // namespace sherd::demo
