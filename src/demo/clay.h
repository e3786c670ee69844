#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "demo/site.h"

namespace sherd::demo {

/// The chemistry of the site: wasters of three kilns, sherds of five fabrics, house standards, and an instrument that
/// reads too high, drifts and misses what is little. All invented. From the site's seed and its finished lines. Error
/// `bad_table`: a built-in table does not fit.
Result<ClayBook> clay_book(const DemoSite& site);

}  // namespace sherd::demo
