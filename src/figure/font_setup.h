#pragma once

#include "base/result.h"

namespace sherd::figure {

/// Makes the shipped fonts the only ones that this process draws with. Done once; later calls return what the first one
/// did. Errors: `fonts_unusable`.
Result<void> use_shipped_fonts();

}  // namespace sherd::figure
