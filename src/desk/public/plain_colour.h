#pragma once

#include <string>

#include "model/record.h"

/// Colours of fabrics as a reader pictures them.
namespace sherd::desk {

struct PlainColour {
  std::string words;  ///< "dark grey"
  std::string hex;    ///< "#5E5C59"; "" where nothing names a colour
};

/// The first colour that the text names, in words or in Munsell notation.
PlainColour colour_in(const std::string& text);

struct FabricColours {
  PlainColour outside, core, glaze;  ///< glaze: empty where there is none
};
/// From the columns of the series, else from what the description says of surface, core and glaze, else grey.
FabricColours colours_of(const Fabric& fabric);

}  // namespace sherd::desk
