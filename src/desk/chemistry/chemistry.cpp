#include "desk/chemistry/chemistry.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "desk/assemblage/compare_input.h"
#include "desk/chemistry/calibrate_table.h"
#include "desk/chemistry/chemistry_tables.h"
#include "desk/chemistry/composition_input.h"
#include "desk/chemistry/fabric_groups.h"
#include "desk/chemistry/instrument_figures.h"
#include "desk/chemistry/run_structure.h"
#include "desk/chemistry/structure_figures.h"

namespace sherd::desk {

namespace {

struct Way {
  std::string_view name, caution;
};
constexpr std::array<Way, 13> kWays{{
    {"components", "Components show the widest spread, which may be burial, temper or the instrument as well as clay."},
    {"clusters", "Clusters come out of any table; another linkage, distance or list of parts may part it otherwise."},
    {"membership",
     "A probability tells how usual a sherd would be in a group; groups that were not measured are not in the table."},
    {"discriminant",
     "Functions are made to part the groups: only the table of samples left out tells how well they do."},
    {"variation", "Total variation depends on which parts are in it: compare only totals of one list of parts."},
    {"outliers", "A sherd far out may be mistyped, altered, of another clay, or the first of its group."},
    {"manova", "Groups that differ in their means may still overlap, sherd by sherd."},
    {"dilution", "A factor explains temper or water that holds none of the elements, and nothing else."},
    {"origin",
     "Chemically indistinguishable within these elements is the most that can be said: place needs reference groups of "
     "known origin, measured on one scale."},
    {"calibrate", "A line holds for materials like its standards, prepared as they were, within their amounts."},
    {"drift", "A check standard tells of the instrument, and not of the sherds."},
    {"acceptance", "An analyte that is in order by its standards may still be changed by burial, glaze or temper."},
    {"fabrics", "Where fabric and chemistry disagree, either may be wrong: look at the sherd again."},
}};

Result<const Way*> way_of(const std::string& how) {
  const auto at = std::ranges::find(kWays, how, &Way::name);
  if (at != kWays.end()) return &*at;
  std::vector<std::string> names;
  for (const Way& way : kWays) names.emplace_back(way.name);
  const std::string near = did_you_mean(how, names);
  return fail(ErrorKind::usage, "bad_how", "chemistry does not know \"" + how + "\"",
              near.empty() ? "choose " + join(names, ", ") : near);
}

bool is_of_instrument(std::string_view how) { return how == "calibrate" || how == "drift" || how == "acceptance"; }

Result<void> of_instrument(CompositionInput&& input, const std::string& how, ChemistryResponse& response) {
  if (how == "drift" && input.instrument.charts.empty())
    return fail("no_standard", "no standard was read twice or more",
                "read a check standard at the start, after every ten sherds or so, and at the end");
  if (how == "calibrate" &&
      std::ranges::none_of(input.instrument.lines, [](const auto& line) { return line.has_value(); }))
    return fail("too_few_standards", "no analyte has standards enough for a line",
                "read in the certificates (import --as standards, then certified), and readings of three standards or "
                "more that name them");
  for (auto& line : input.instrument.lines) {
    if (line && how != "drift") response.calibrations.push_back(std::move(*line));
  }
  if (how != "calibrate") response.charts = std::move(input.instrument.charts);
  if (how != "drift") response.acceptance = std::move(input.instrument.acceptance);
  return {};
}

/// What is wanted, an --svg among the files.
DeliveryRequest wanted_of(const ChemistryRequest& request) {
  DeliveryRequest out = request;
  if (!request.svg.empty()) out.out.push_back(request.svg);
  return out;
}

Result<void> hand_over(const ChemistryRequest& request, Environment& environment, ChemistryResponse& response) {
  const DeliveryRequest wanted = wanted_of(request);
  std::vector<DrawnPicture> pictures;
  if (wants_figures(wanted)) {
    const std::int64_t width = request.width.value_or(0);
    pictures = is_of_instrument(request.how) ? instrument_pictures(response, width)
               : request.how == "fabrics"    ? std::vector<DrawnPicture>{}
                                             : structure_pictures(response, width);
  }
  response.file = request.svg;
  return deliver(wanted,
                 {.name = request.how,
                  .title = "Chemistry: " + request.how,
                  .caution = response.caution,
                  .tables = [&] { return tables_of(response); }},
                 std::move(pictures), environment, response, response);
}

}  // namespace

Result<ChemistryResponse> study_chemistry(const ChemistryRequest& request, Environment& environment,
                                          Progress& progress) {
  SHERD_TRY(const Way* way, way_of(request.how));
  SHERD_CHECK(check_delivery(wanted_of(request)));
  SHERD_TRY(const bool store, is_store(request.store, environment));
  ChemistryResponse response;
  response.how = request.how;
  response.caution = way->caution;
  if (!store && request.how == "calibrate") {
    SHERD_CHECK(calibrate_table(request, environment, response));
    SHERD_CHECK(hand_over(request, environment, response));
    return response;
  }
  if (!store && (is_of_instrument(request.how) || request.how == "fabrics"))
    return fail(ErrorKind::usage, "not_for_this", "--how " + request.how + " is for a store; this is a table",
                "import-readings brings the readings into a store");
  SHERD_TRY(CompositionInput input,
            store ? composition_of_store(request, environment) : composition_of_table(request, environment));
  response.table = input.about;
  response.warnings = input.warnings;
  response.provenance = input.provenance;
  for (const auto& [name, value] :
       std::initializer_list<std::pair<const char*, std::string>>{{"how", request.how},
                                                                  {"by", input.about.groups_by},
                                                                  {"analytes", join(input.about.analytes, ", ")},
                                                                  {"corrected", request.corrected},
                                                                  {"drift", request.drift}}) {
    if (!value.empty()) response.provenance.settings[name] = value;
  }
  if (is_of_instrument(request.how)) {
    SHERD_CHECK(of_instrument(std::move(input), request.how, response));
  } else if (request.how == "fabrics") {
    SHERD_CHECK(groups_against_fabrics(input, response));
  } else {
    SHERD_CHECK(run_structure(request, input.composition, input.sources, response, progress));
  }
  SHERD_CHECK(hand_over(request, environment, response));
  return response;
}

}  // namespace sherd::desk
