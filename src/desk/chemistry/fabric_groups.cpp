#include "desk/chemistry/fabric_groups.h"

#include <algorithm>
#include <map>

#include "base/text.h"

namespace sherd::desk {

Result<void> groups_against_fabrics(const CompositionInput& input, ChemistryResponse& response) {
  const chemistry::Composition& all = input.composition;
  std::map<std::pair<std::string, std::string>, std::size_t> cells;
  std::map<std::string, std::int64_t> fabrics;
  std::int64_t unknown = 0;
  for (std::size_t i = 0; i < all.rows(); ++i) {
    const std::string& group = all.groups.empty() ? std::string() : all.groups[i];
    if (input.fabrics[i].empty()) {
      ++unknown;
      continue;
    }
    const auto [place, fresh] = cells.emplace(std::pair(input.fabrics[i], group), response.cells.size());
    if (fresh) response.cells.push_back({input.fabrics[i], group, 0, {}});
    FabricCell& cell = response.cells[place->second];
    ++cell.samples;
    cell.ids.push_back(all.ids[i]);
    if (!group.empty()) ++fabrics[input.fabrics[i]];
  }
  if (fabrics.empty())
    return fail("no_groups", "no sample has both a fabric and a chem group",
                "readings are tied to lines by their record or sample; the chem group is a column of the readings");
  std::ranges::sort(response.cells, {}, [](const FabricCell& cell) { return std::pair(cell.fabric, cell.group); });
  std::map<std::string, const FabricCell*> usual;
  for (const FabricCell& cell : response.cells) {
    if (!cell.group.empty() && 2 * cell.samples > fabrics[cell.fabric]) usual[cell.fabric] = &cell;
  }
  for (std::size_t i = 0; i < all.rows(); ++i) {
    const auto found = usual.find(input.fabrics[i]);
    if (found == usual.end() || all.groups[i].empty() || all.groups[i] == found->second->group) continue;
    response.disagreements.push_back({.id = all.ids[i],
                                      .record = all.records[i],
                                      .fabric = input.fabrics[i],
                                      .group = all.groups[i],
                                      .usual_group = found->second->group,
                                      .of_fabric = fabrics[input.fabrics[i]],
                                      .in_usual = found->second->samples});
  }
  if (unknown > 0) response.warnings.push_back(counted(unknown, "sample") + " of no known line, so of no known fabric");
  return {};
}

}  // namespace sherd::desk
