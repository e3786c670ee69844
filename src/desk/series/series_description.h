#pragma once

#include <string>
#include <vector>

#include "desk/series/series_list.h"

namespace sherd::desk {

/// Colours with their swatches, firing in words, and the words of hardness and inclusions on their scales.
void read_description(FabricEntry& fabric);

/// The order in which a series is shown: groups by name, those without one last; fabrics by code, each followed by its
/// variants. A variant whose parent is in another group, or comes round to itself, stands in its own group as a fabric.
std::vector<WareGroup> series_tree(const std::vector<FabricEntry>& fabrics);

}  // namespace sherd::desk
