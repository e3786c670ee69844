#include <array>
#include <cmath>
#include <string_view>

#include "base/numbers.h"
#include "notation/munsell.h"

namespace sherd::notation {

namespace {

constexpr std::array<std::string_view, 10> kFamilies{"R", "YR", "Y", "GY", "G", "BG", "B", "PB", "P", "RP"};

/// The plain word of a hue and its form before another word.
struct HueWord {
  double up_to = 0;  ///< of the hue, 0 to 100
  std::string_view strong, tinge;
};

// Between red and yellow the word of a strong colour changes with its depth: see `warm`.
constexpr std::array<HueWord, 11> kHues{{{10, "red", "reddish"},
                                         {25, "orange", "brownish"},
                                         {30, "yellow", "yellowish"},
                                         {40, "green-yellow", "olive"},
                                         {50, "green", "greenish"},
                                         {60, "blue-green", "greenish"},
                                         {70, "blue", "bluish"},
                                         {80, "purplish blue", "bluish"},
                                         {90, "purple", "purplish"},
                                         {98, "purplish red", "pinkish"},
                                         {100, "red", "reddish"}}};

const HueWord& hue_word(double hue) {
  for (const HueWord& one : kHues) {
    if (hue <= one.up_to) return one;
  }
  return kHues.back();
}

std::string_view depth(double value) {
  if (value < 2.5) return "very dark ";
  if (value < 4.5) return "dark ";
  return value < 6.5 ? "" : "light ";
}

std::string grey(double value) {
  if (value < 2.25) return "black";
  if (value >= 8.75) return "white";
  return std::string(depth(value)) + "grey";
}

/// Reds, browns, buffs, oranges and yellows: the colours of most pots.
std::string warm(const Munsell& colour) {
  const double hue = colour.hue;
  if (hue <= 10) {
    if (colour.value >= 6.5) return "pink";
    return std::string(depth(colour.value)) + (colour.chroma < 5 ? "brownish red" : "red");
  }
  if (hue > 24) {
    if (colour.value < 5.5) return std::string(depth(colour.value)) + (colour.chroma < 5 ? "olive brown" : "olive");
    return colour.chroma < 5 ? "pale yellow" : "yellow";
  }
  const std::string_view side = hue <= 15 ? "reddish " : hue > 19 ? "yellowish " : "";
  if (colour.value >= 6.5)
    return colour.chroma < 5 ? (hue <= 15 ? "pinkish buff" : "buff") : std::string(side) + "orange";
  if (colour.value >= 4.5 && colour.chroma > 6) return std::string(side) + (hue <= 19 ? "orange" : "brown");
  return std::string(depth(colour.value)) + std::string(side) + "brown";
}

/// To the hundredth, as it is read.
std::string number_text(double number) { return format_double(std::round(number * 100) / 100); }

}  // namespace

std::string hue_text(int step) {
  constexpr std::array<std::string_view, 4> kNumbers{"2.5", "5", "7.5", "10"};
  const auto index = static_cast<std::size_t>(step - 1);
  return std::string(kNumbers[index % 4]) + std::string(kFamilies[index / 4]);
}

std::string munsell_text(const Munsell& colour) {
  if (colour.neutral()) return "N " + number_text(colour.value) + "/";
  auto family = static_cast<std::size_t>(colour.hue / 10);
  double number = colour.hue - 10 * static_cast<double>(family);
  if (number == 0) {  // 10YR, not 0Y
    number = 10;
    family = (family + 9) % 10;
  }
  return number_text(number) + std::string(kFamilies[family]) + " " + number_text(colour.value) + "/" +
         number_text(colour.chroma);
}

std::string colour_words(const Munsell& colour) {
  if (colour.chroma < 0.5) return grey(colour.value);
  if (colour.value < 2.25 && colour.chroma <= 2) return std::string(hue_word(colour.hue).tinge) + " black";
  if (colour.chroma <= 2) return std::string(depth(colour.value)) + std::string(hue_word(colour.hue).tinge) + " grey";
  if (colour.hue <= 30) return warm(colour);
  return std::string(depth(colour.value)) + std::string(hue_word(colour.hue).strong);
}

}  // namespace sherd::notation
