#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "notation/munsell.h"

namespace sherd::notation {

namespace {

using Vector = std::array<double, 3>;
using Matrix = std::array<Vector, 3>;

constexpr Chromaticity kIlluminantC{0.31006, 0.31616};  // CIE 1931, 2 degrees
constexpr Chromaticity kD65{0.3127, 0.3290};            // as IEC 61966-2-1 has it

/// Cone responses after Bradford (Lam 1985; CIECAM97s).
constexpr Matrix kBradford{{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}};
constexpr Matrix kFromBradford{
    {{0.9869929, -0.1470543, 0.1599627}, {0.4323053, 0.5183603, 0.0492912}, {-0.0085287, 0.0400428, 0.9684867}}};
/// XYZ of D65 to linear sRGB, IEC 61966-2-1.
constexpr Matrix kToRgb{{{3.2406, -1.5372, -0.4986}, {-0.9689, 1.8758, 0.0415}, {0.0557, -0.2040, 1.0570}}};

Vector times(const Matrix& m, const Vector& v) {
  Vector out{};
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) out[i] += m[i][j] * v[j];
  }
  return out;
}

Vector xyz(const Chromaticity& at, double luminance_factor) {
  return {at.x / at.y * luminance_factor, luminance_factor, (1 - at.x - at.y) / at.y * luminance_factor};
}

/// From illuminant C to D65.
Vector adapted(const Vector& under_c) {
  const Vector from = times(kBradford, xyz(kIlluminantC, 1));
  const Vector to = times(kBradford, xyz(kD65, 1));
  Vector cone = times(kBradford, under_c);
  for (std::size_t i = 0; i < 3; ++i) cone[i] *= to[i] / from[i];
  return times(kFromBradford, cone);
}

double gamma(double linear) { return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055; }

void screen(ColourValues& values) {
  const Vector linear = times(kToRgb, adapted(xyz({values.x, values.y}, values.Y / 100)));
  constexpr double kHalfStep = 0.5 / 255;  // what rounds to the edge is not beyond it
  std::array<int, 3> bytes{};
  for (std::size_t i = 0; i < 3; ++i) {
    const double signal = gamma(std::max(linear[i], 0.0));
    if (linear[i] < -kHalfStep / 12.92 || signal > 1 + kHalfStep) values.in_gamut = false;
    bytes[i] = static_cast<int>(std::lround(std::clamp(signal, 0.0, 1.0) * 255));
  }
  values.srgb = fmt::format("#{:02x}{:02x}{:02x}", bytes[0], bytes[1], bytes[2]);
}

Chromaticity between(const Chromaticity& a, const Chromaticity& b, double share) {
  return {a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share};
}

/// Along one row of the table; the neutral stands before chroma 2.
std::optional<Chromaticity> along(const MunsellRow& row, double chroma) {
  const double place = chroma / 2;
  const auto below = static_cast<std::size_t>(place);
  const double share = place - static_cast<double>(below);
  if (below + (share > 0 ? 1 : 0) > row.chroma.size()) return std::nullopt;
  const Chromaticity& from = below == 0 ? kIlluminantC : row.chroma[below - 1];
  return share > 0 ? between(from, row.chroma[below], share) : from;
}

/// The steps of the table on both sides of a hue, and where between them.
struct HueSteps {
  int below = 0, above = 0;
  double share = 0;
};

HueSteps steps(double hue) {
  const double place = hue / 2.5;  // 2.5R is 1
  const int below = static_cast<int>(place);
  const double share = place - below;
  const auto wrapped = [](int step) { return step < 1 ? step + 40 : step > 40 ? step - 40 : step; };
  return {wrapped(below), wrapped(share > 0 ? below + 1 : below), share};
}

std::optional<Chromaticity> at_value(const Munsell& colour, int value, const MunsellTable& table) {
  const HueSteps hue = steps(colour.hue);
  const auto from = along(table.at(hue.below, value), colour.chroma);
  const auto to = along(table.at(hue.above, value), colour.chroma);
  if (!from || !to) return std::nullopt;
  return between(*from, *to, hue.share);
}

}  // namespace

double luminance(double value) {
  const double v = value;
  return 0.975 * v * (1.2219 + v * (-0.23111 + v * (0.23951 + v * (-0.021009 + v * 0.0008404))));
}

std::optional<int> last_chroma(const Munsell& colour, const MunsellTable& table) {
  if (colour.value < 1 || colour.value > 9) return std::nullopt;
  const HueSteps hue = steps(colour.hue);
  std::size_t least = 100;
  for (const double value : {std::floor(colour.value), std::ceil(colour.value)}) {
    for (const int step : {hue.below, hue.above})
      least = std::min(least, table.at(step, static_cast<int>(value)).chroma.size());
  }
  return 2 * static_cast<int>(least);
}

std::optional<ColourValues> colour_values(const Munsell& colour, const MunsellTable& table) {
  ColourValues out;
  out.Y = luminance(colour.value);
  if (colour.neutral()) {
    out.x = kIlluminantC.x;
    out.y = kIlluminantC.y;
    screen(out);
    return out;
  }
  if (colour.value < 1 || colour.value > 9) return std::nullopt;
  const int below = static_cast<int>(colour.value);
  const int above = static_cast<int>(std::ceil(colour.value));
  const auto from = at_value(colour, below, table);
  const auto to = at_value(colour, above, table);
  if (!from || !to) return std::nullopt;
  // Between two values the way is straight in the luminance factor, as the eye's steps are not even in it.
  const double share = above == below ? 0 : (out.Y - luminance(below)) / (luminance(above) - luminance(below));
  const Chromaticity at = between(*from, *to, share);
  out.x = at.x;
  out.y = at.y;
  const auto whole = [](double number) { return number == std::floor(number); };
  out.interpolated = !(whole(colour.value) && whole(colour.chroma / 2) && whole(colour.hue / 2.5));
  screen(out);
  return out;
}

}  // namespace sherd::notation
