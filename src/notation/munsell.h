#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/munsell_table.h"

namespace sherd::notation {

/// A colour of the Munsell system. A neutral has chroma 0 and no hue.
struct Munsell {
  double hue = 0;  ///< 0 to 100 from the start of R: 5R is 5, 10YR is 20, 10RP is 100; 0 for a neutral
  double value = 0;
  double chroma = 0;
  bool neutral() const { return chroma == 0; }
  friend bool operator==(const Munsell&, const Munsell&) = default;
};

/// "10YR 5/4", "N 3/": the canonical notation.
std::string munsell_text(const Munsell& colour);
/// The name of a hue of the renotation table, 1..40: 1 is "2.5R", 40 is "10RP".
std::string hue_text(int step);

/// A colour in numbers and on a screen.
struct ColourValues {
  double x = 0, y = 0;        ///< CIE 1931, illuminant C
  double Y = 0;               ///< luminance factor, 0 to 100 (perfect diffuser)
  std::string srgb;           ///< "#7f6a4f", D65
  bool in_gamut = true;       ///< false: the screen can not show it, the swatch is the nearest it can
  bool interpolated = false;  ///< false: the colour itself stands in the table
};

/// What a colour note says.
struct ColourReading {
  Munsell from;
  std::optional<Munsell> to;  ///< the other end of a range
  bool near = false;
  std::optional<ColourValues> values, to_values;
  std::string words, to_words;  ///< plain words of our own, not the names of any colour book
  std::vector<std::string> because;
  std::vector<std::string> warnings;
};

/// Reads "10YR 5/4", "2.5YR 5/6-5/8", "7.5YR 5/4 to 4/4", "5YR 5/4-7.5YR 5/4", "10YR 5/3-4", "N 3/", "N4/0", "4/0",
/// "near 10YR 5/3", with words of the writer's own behind it. Error `unreadable_colour` with a caret: not this
/// notation, or a hue, value or chroma beyond what there is. A colour outside the table of the renotation is read
/// without values, and a warning says so.
Result<ColourReading> read_colour(std::string_view text, const MunsellTable& table);

/// The renotation at a colour, straight lines between the points of the table and to the neutral. Nothing where the
/// table does not reach. Neutrals are by formula, value 0 to 10.
std::optional<ColourValues> colour_values(const Munsell& colour, const MunsellTable& table);
/// The last chroma in the table for this hue and value (the nearest ones on both sides); nothing where the value is
/// beyond the table.
std::optional<int> last_chroma(const Munsell& colour, const MunsellTable& table);
/// Luminance factor of a Munsell value, perfect diffuser = 100: 0.975 times the polynomial of Newhall, Nickerson & Judd
/// 1943 (there relative to magnesium oxide).
double luminance(double value);
/// "dark reddish brown".
std::string colour_words(const Munsell& colour);

}  // namespace sherd::notation
