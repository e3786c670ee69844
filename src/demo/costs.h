#pragma once

#include "demo/site.h"

namespace sherd::demo {

/// What the work was thought to cost before a box was opened, and the hours that it has taken. Invented.
CostBook cost_book();

}  // namespace sherd::demo
