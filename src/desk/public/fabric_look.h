#pragma once

#include <string>
#include <vector>

#include "figure/sherd_picture.h"
#include "model/record.h"
#include "model/record_more.h"

namespace sherd::desk {

/// A fabric as a picture, and in short plain sentences for who has never held one.
struct FabricLook {
  figure::SherdLook look;
  std::vector<std::string> sentences;
};

/// From the colours and inclusions that the series gives, else from the words of the description. `decoration`: what is
/// most often on it; "" for nothing.
FabricLook fabric_look(const Fabric& fabric, const std::vector<Inclusion>& inclusions, const std::string& decoration);

/// What a decoration's words look like as a pattern.
figure::SherdPattern pattern_of(const std::string& decoration);

}  // namespace sherd::desk
