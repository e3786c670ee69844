#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/sherd_picture.h"
#include "figure/vessel_drawing.h"

namespace sherd::figure {

inline constexpr std::size_t kKeyPictures = 12;

struct KeyPicture {
  int number = 0;
  std::string name, code;          ///< "Hard sandy ware", "sandy-2"
  std::vector<std::string> looks;  ///< short sentences: what to look for
  SherdLook look;
  std::optional<VesselDrawing> vessel;  ///< a typical one, drawn small
  std::uint64_t seed = 0;
};

struct KeySheet {
  std::string title, foot;                ///< foot: site, number of the key, state of the record
  std::vector<std::string> instructions;  ///< sentences above the pictures
  std::vector<KeyPicture> pictures;       ///< at most twelve
};

/// An A4 sheet with the pictures, three in a row, and a pot with the names of its parts.
std::string key_sheet(const KeySheet& sheet);
/// The A4 sheet on which answers are written, with lines to write on.
std::string key_form(const KeySheet& sheet);

}  // namespace sherd::figure
