#include "desk/assemblage/field_words.h"

#include <algorithm>

namespace sherd::desk {

std::string plural_of(const std::string& field, const char* unless_known) {
  if (field.empty()) return unless_known;
  std::string name = field.substr(field.rfind('.') == std::string::npos ? 0 : field.rfind('.') + 1);
  std::ranges::replace(name, '_', ' ');
  if (name.ends_with("ss")) return name + "es";
  if (name.ends_with('s')) return name;
  if (name.ends_with("ty")) return name.substr(0, name.size() - 1) + "ies";
  return name + "s";
}

std::string measure_word(const std::string& measure) {
  if (measure == "count") return "sherds";
  if (measure == "weight_g") return "g";
  if (measure == "eve") return "EVE";
  return measure;
}

}  // namespace sherd::desk
