#pragma once

#include <cstddef>
#include <vector>

namespace sherd {

/// A chromaticity of the CIE 1931 diagram.
struct Chromaticity {
  double x = 0;
  double y = 0;
};

/// One hue at one value: chromaticities at chroma 2, 4, 6 ... as far as the table goes.
struct MunsellRow {
  int hue = 0;    ///< in steps of 2.5 from 2.5R = 1 to 10RP = 40
  int value = 0;  ///< 1..9
  std::vector<Chromaticity> chroma;
};

/// The Munsell renotation: illuminant C, 2 degree observer.
struct MunsellTable {
  std::vector<MunsellRow> rows;  ///< by hue, then value; all 40 x 9 are there
  const MunsellRow& at(int hue, int value) const { return rows[static_cast<std::size_t>((hue - 1) * 9 + value - 1)]; }
};

}  // namespace sherd
