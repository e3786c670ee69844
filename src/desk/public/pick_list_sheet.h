#pragma once

#include <string>

#include "desk/public/pick_list.h"
#include "model/site.h"

namespace sherd::desk {

/// The list as a page to print and take along: where each is, a box to tick, what to mind.
std::string pick_list_html(const Site& site, const PickWish& wish, const PickListResponse& list);
std::string pick_list_csv(const PickListResponse& list);
/// "tray B, bag 44, box 16"; where it is instead, for what is away.
std::string where_is(const PublicObject& object);

}  // namespace sherd::desk
