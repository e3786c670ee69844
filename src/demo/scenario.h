#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "demo/site.h"

/// The hand-written half of the demo: tables in data/demo, built into the program.
namespace sherd::demo {

/// A pot that could be bought: what it is, how common it is, how it breaks.
struct Recipe {
  std::string fabric, form, decoration, ware_group;
  double share = 1;    ///< of the market while it is made, against its rivals
  double pieces = 1;   ///< sherds that the whole vessel breaks into
  double sherd_g = 1;  ///< mean weight of a sherd
  std::int64_t rim_from_mm = 0, rim_to_mm = 0;
  Year earliest, latest;  ///< of making, by the most specific row of the dates
};

/// Vessels that came into a context from one source, broken between `from` and `to`.
struct Supply {
  std::string context;
  Origin origin = Origin::own;
  Year from, to;
  std::int64_t vessels = 0;
  std::vector<std::string> wares;  ///< ware groups or fabrics; empty: whatever was current
  std::string source;
};

struct Scenario {
  std::vector<Context> contexts;
  std::vector<Relation> relations;  ///< as they truly were
  std::vector<Phase> phases;
  std::vector<Fabric> fabrics;
  std::vector<Form> forms;
  std::vector<WareDate> dates;
  std::vector<TrueDate> truth;
  std::vector<Supply> supply;
  std::vector<Recipe> recipes;
};

/// The built-in tables. Errors: kind internal, `bad_table`, with the table's name.
Result<Scenario> read_scenario();

/// Years of making by the date row that names the most of fabric, form and decoration (decoration before form where
/// two name as many), else by the fabric. Empty for an unknown fabric.
YearRange made_between(std::span<const WareDate> dates, std::span<const Fabric> fabrics, std::string_view fabric,
                       std::string_view form, std::string_view decoration);

}  // namespace sherd::demo
