#pragma once

#include <string>

namespace sherd::desk {

/// "fabric.ware_group" -> "ware groups".
std::string plural_of(const std::string& field, const char* unless_known);
/// "weight_g" -> "g", "count" -> "sherds".
std::string measure_word(const std::string& measure);

}  // namespace sherd::desk
