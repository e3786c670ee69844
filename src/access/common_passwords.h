#pragma once

#include <string_view>

namespace sherd::access {

/// Whether a password, letters' case aside, is one of the commonest among those that were stolen elsewhere
/// (data/access/SOURCE.md), or no more than one of them: said again and again, or with figures and signs before and
/// after it.
bool is_common(std::string_view password);

}  // namespace sherd::access
