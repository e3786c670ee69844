#pragma once

#include "base/result.h"
#include "demo/site.h"

namespace sherd::demo {

/// Puts the mistakes into a booked site and lists them. Errors: kind internal, `nothing_to_plant`, where the site has
/// no line that a mistake could be made on.
Result<void> plant_mistakes(DemoSite& site);

}  // namespace sherd::demo
