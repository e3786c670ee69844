#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::desk {

/// A decimal of a request; nothing where it is blank. Error `bad_number` (usage) that names the option.
Result<std::optional<double>> number_option(std::string_view name, const std::string& text);

}  // namespace sherd::desk
