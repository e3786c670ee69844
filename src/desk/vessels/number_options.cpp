#include "desk/vessels/number_options.h"

#include "base/text.h"
#include "desk/vessels/section_file.h"

namespace sherd::desk {

Result<std::optional<double>> number_option(std::string_view name, const std::string& text) {
  if (trim(text).empty()) return std::nullopt;
  const auto number = read_decimal(text);
  if (number) return *number;
  return fail(ErrorKind::usage, "bad_number", std::string(name) + ": " + number.error().message, "such as 4.5");
}

}  // namespace sherd::desk
