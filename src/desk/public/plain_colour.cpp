#include "desk/public/plain_colour.h"

#include <algorithm>
#include <array>
#include <vector>

#include "base/text.h"
#include "notation/munsell.h"
#include "reference/public_side.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

struct Known {
  std::string_view word, hex;
};
// Common practice, no source: what a reader pictures by the word.
constexpr std::array kColours{
    Known{"black", "#3A3733"},        Known{"red-brown", "#8F5236"},    Known{"reddish-brown", "#8F5236"},
    Known{"orange-brown", "#A8663C"}, Known{"orange-buff", "#CF9A66"},  Known{"pink-buff", "#DDB799"},
    Known{"brick red", "#A4502F"},    Known{"yellow-green", "#B3AE66"}, Known{"off-white", "#EFEBE1"},
    Known{"pinkish", "#D5A48E"},      Known{"purplish", "#6B4A58"},     Known{"greenish", "#8E9470"},
    Known{"brown", "#7A5A3E"},        Known{"brownish", "#8A6A4A"},     Known{"red", "#A8563A"},
    Known{"orange", "#C9824F"},       Known{"buff", "#D3B78F"},         Known{"cream", "#E8DCBF"},
    Known{"white", "#F1EDE4"},        Known{"grey", "#8C8B87"},         Known{"pink", "#D5A48E"},
    Known{"yellow", "#D9B65A"},       Known{"purple", "#6B4A58"},       Known{"green", "#6F8A58"},
    Known{"blue", "#3E5C8C"},         Known{"amber", "#B4792F"},        Known{"dark", "#57524C"},
    Known{"pale", "#DDD2BD"}};

int part_of(std::string_view hex, std::size_t at) { return std::stoi(std::string(hex.substr(at, 2)), nullptr, 16); }

/// `by` -1..1: towards black or white.
std::string shaded(std::string_view hex, double by) {
  std::string out = "#";
  constexpr std::string_view kDigits = "0123456789ABCDEF";
  for (const std::size_t at : {1U, 3U, 5U}) {
    const double value = part_of(hex, at);
    const double to = by < 0 ? value * (1 + by) : value + (255 - value) * by;
    const auto whole = static_cast<std::size_t>(std::clamp(to + 0.5, 0.0, 255.0));
    out += kDigits[whole / 16];
    out += kDigits[whole % 16];
  }
  return out;
}

std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> out(1);
  for (const char c : text) {
    if (c == '.' || c == ';' || c == ',') {
      out.emplace_back();
    } else {
      out.back() += c;
    }
  }
  return out;
}

/// The colour in the first part of the text that holds one of the words and a colour.
PlainColour beside(const std::string& text, const std::vector<std::string>& words) {
  for (const std::string& part : parts_of(text)) {
    if (!reference::holds_word(part, words)) continue;
    if (PlainColour found = colour_in(part); !found.hex.empty()) return found;
  }
  return {};
}

}  // namespace

PlainColour colour_in(const std::string& text) {
  if (const auto read = notation::read_colour(text, reference::munsell()); read && read->values)
    return {read->words, read->values->srgb};
  const std::string low = lower(text);
  std::size_t first = std::string::npos;
  const Known* found = nullptr;
  for (const Known& known : kColours) {
    if (!reference::holds_word(low, {std::string(known.word)})) continue;
    const std::size_t at = low.find(known.word);
    if (at < first) {
      first = at;
      found = &known;
    }
  }
  if (!found) return {};
  std::string words(found->word), hex(found->hex);
  const auto before = [&](std::string_view shade) {
    return first >= shade.size() + 1 && low.substr(first - shade.size() - 1, shade.size()) == shade;
  };
  if (found->word == "dark" || found->word == "pale") return {words, hex};
  for (const std::string_view shade : {"dark", "light", "pale"}) {
    if (before(shade)) return {std::string(shade) + " " + words, shaded(hex, shade == "dark" ? -0.35 : 0.35)};
  }
  return {words, hex};
}

FabricColours colours_of(const Fabric& fabric) {
  FabricColours out;
  const std::string& text = fabric.description;
  out.outside = colour_in(fabric.outside);
  out.core = colour_in(fabric.core);
  if (out.outside.hex.empty()) out.outside = beside(text, {"surface", "surfaces", "outside", "throughout", "fired"});
  if (out.core.hex.empty()) out.core = beside(text, {"core", "body", "throughout", "fired", "fracture"});
  if (out.outside.hex.empty()) out.outside = beside(fabric.name, {"ware", "earthenware", "whiteware", "amphora"});
  if (out.outside.hex.empty()) out.outside = out.core;
  if (out.outside.hex.empty()) out.outside = colour_in(fabric.name + "; " + text);
  if (out.outside.hex.empty()) out.outside = {"grey", "#8C8B87"};
  if (out.core.hex.empty()) out.core = out.outside;
  const std::vector<std::string> coats{"glaze", "glazes", "slip", "gloss", "wash", "salt-glazed", "glazed", "glossy"};
  if (reference::holds_word(fabric.name + "; " + text,
                            {"glaze", "glazed", "salt-glazed", "green-glazed", "tin-glazed", "yellow-glazed"})) {
    out.glaze = beside(text, coats);
    if (out.glaze.hex.empty())
      out.glaze = beside(fabric.name, {"glaze", "glazed", "green-glazed", "yellow-glazed", "salt-glazed"});
    if (out.glaze.hex.empty()) out.glaze = {"clear", shaded(out.outside.hex, -0.12)};
  }
  return out;
}

}  // namespace sherd::desk
