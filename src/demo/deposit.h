#pragma once

#include "demo/site.h"

namespace sherd::demo {

/// What becomes of the pottery: a repository with its rules, pieces that are out of their bags, and what is kept or
/// not, so that every sherd is accounted for. To be called when the lines stand.
void settle_deposit(DemoSite& site);

}  // namespace sherd::demo
