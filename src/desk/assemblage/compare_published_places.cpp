#include <fmt/format.h>

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/assemblage/compare_input.h"
#include "desk/assemblage/line_fields.h"
#include "desk/assemblage/published.h"

/// Published assemblages as places of a fall-off.
namespace sherd::desk {

namespace {

/// The ware whose share falls off: the values of one condition on the field of the types.
struct Ware {
  std::string field, name;
  std::vector<std::string> codes;
};

Result<Ware> ware_of(const CompareRequest& request) {
  Ware out{.field = request.columns.empty() ? "fabric" : request.columns, .name = {}, .codes = {}};
  SHERD_TRY(const auto conditions, conditions_of(request.where));
  if (conditions.size() != 1 || conditions[0].negated || conditions[0].field != out.field)
    return fail(ErrorKind::usage, "no_ware", "distance of a store follows one ware among published assemblages",
                fmt::format("name it: --where {}=VALUE (A||B for several taken together)", out.field));
  for (std::string_view rest = conditions[0].value; !rest.empty();) {
    const std::size_t bar = rest.find("||");
    out.codes.emplace_back(rest.substr(0, bar));
    rest = bar == std::string_view::npos ? std::string_view() : rest.substr(bar + 2);
  }
  out.name = join(out.codes, " and ");
  return out;
}

double share_of(const PublishedAssemblage& one, const Ware& ware) {
  double of_ware = 0;
  for (const PublishedTotal& total : one.totals) {
    if (std::ranges::find(ware.codes, total.code) != ware.codes.end()) of_ware += total.amount;
  }
  return one.total() > 0 ? 100 * of_ware / one.total() : 0;
}

}  // namespace

Result<PlacesInput> places_of_published(const CompareRequest& request, Environment& environment) {
  SHERD_TRY(const Ware ware, ware_of(request));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(auto kept, read_published(session));
  const std::vector<std::string> all{"all"};
  SHERD_TRY(const auto chosen, chosen_published(request.with.empty() ? all : request.with, std::move(kept)));
  const std::string measure = request.measure.empty() ? "count" : request.measure;
  PlainTable table;
  std::vector<std::string> unlike, nowhere;
  std::optional<bool> degrees;
  for (const PublishedAssemblage& one : chosen) {
    if (one.measure != measure || one.field != ware.field) {
      unlike.push_back(one.assemblage);
    } else if (!one.east || !one.north) {
      nowhere.push_back(one.assemblage);
    } else if (degrees.value_or(one.degrees) != one.degrees) {
      return fail("unlike_places",
                  fmt::format("\"{}\" lies by {}, others by {}", one.assemblage, one.degrees ? "degrees" : "a grid",
                              one.degrees ? "a grid" : "degrees"),
                  "give all of them in one way: add-published takes the place of what is kept");
    } else {
      degrees = one.degrees;
      table.rows.push_back({static_cast<std::int64_t>(table.rows.size() + 2),
                            {one.assemblage, fmt::format("{:.9f}", *one.east), fmt::format("{:.9f}", *one.north),
                             fmt::format("{:.9f}", share_of(one, ware))}});
    }
  }
  const bool round = degrees.value_or(false);
  table.columns = {"place", round ? "longitude" : "east", round ? "latitude" : "north", "share"};
  CompareRequest asked = request;
  asked.measure = "share";
  asked.columns.clear();
  asked.groups.clear();
  asked.at = round ? "longitude,latitude" : "east,north";
  if (request.from.empty())
    return fail(ErrorKind::usage, "bad_choice", "distance of a store is measured from where the ware was made",
                "say where: --from EAST,NORTH");
  SHERD_TRY(PlacesInput out, places_in(table, asked));
  out.measure = "% " + ware.name;
  const auto told = [&](const std::vector<std::string>& names, const std::string& why) {
    if (!names.empty()) out.warnings.push_back("left out, " + why + ": " + join(names, ", "));
  };
  told(nowhere, "because it is not said where they lie");
  told(unlike, fmt::format("because they are not published by {} and {}", measure, ware.field));
  SHERD_TRY(out.provenance, session.provenance(environment));
  out.provenance.settings["ware"] = ware.name;
  return out;
}

}  // namespace sherd::desk
