#pragma once

#include <cstdint>

#include "base/result.h"
#include "demo/site.h"

namespace sherd::demo {

/// The seed of the demo that the program makes unless told otherwise.
constexpr std::uint64_t kSeed = 26;

/// The demo site, planted mistakes included: the same seed gives the same rows. Reads no clock and no file.
/// Errors: kind internal, where the built-in scenario cannot be read.
Result<DemoSite> generate(std::uint64_t seed = kSeed);

}  // namespace sherd::demo
