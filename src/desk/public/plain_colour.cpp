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
  std::string_view word, hex, plain = {};  ///< plain: what to call it, where the word is the specialist's
};
// Common practice, no source: what a reader pictures by the word.
constexpr std::array kColours{Known{"black", "#3A3733"},
                              Known{"red-brown", "#8F5236"},
                              Known{"reddish-brown", "#8F5236"},
                              Known{"orange-brown", "#A8663C"},
                              Known{"orange-buff", "#CF9A66"},
                              Known{"pink-buff", "#DDB799"},
                              Known{"brick red", "#A4502F"},
                              Known{"yellow-green", "#B3AE66"},
                              Known{"off-white", "#EFEBE1"},
                              Known{"pinkish", "#D5A48E"},
                              Known{"purplish", "#6B4A58"},
                              Known{"greenish", "#8E9470"},
                              Known{"brown", "#7A5A3E"},
                              Known{"brownish", "#8A6A4A"},
                              Known{"red", "#A8563A"},
                              Known{"orange", "#C9824F"},
                              Known{"buff", "#D3B78F"},
                              Known{"cream", "#E8DCBF"},
                              Known{"white", "#F1EDE4"},
                              Known{"grey", "#8C8B87"},
                              Known{"pink", "#D5A48E"},
                              Known{"yellow", "#D9B65A"},
                              Known{"purple", "#6B4A58"},
                              Known{"green", "#6F8A58"},
                              Known{"blue", "#3E5C8C"},
                              Known{"amber", "#B4792F"},
                              Known{"oxidised", "#B5704A", "reddish"},
                              Known{"reduced", "#85837F", "grey"},
                              Known{"dark", "#57524C"},
                              Known{"pale", "#DDD2BD"}};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80; }

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

/// A colour named in a text, and where.
struct Found {
  std::size_t at = 0, end = 0;
  PlainColour colour;
};

/// All that the text names, "pale grey" as one; words that say a shade alone count where nothing else stands there.
std::vector<Found> colours_in(const std::string& low) {
  std::vector<Found> out;
  for (const Known& known : kColours) {
    for (std::size_t at = low.find(known.word); at != std::string::npos; at = low.find(known.word, at + 1)) {
      const std::size_t end = at + known.word.size();
      const bool whole = (at == 0 || !is_letter(low[at - 1])) && (end == low.size() || !is_letter(low[end]));
      const bool inside = std::ranges::any_of(out, [&](const Found& one) { return at < one.end && one.at < end; });
      if (!whole || inside) continue;
      Found found{at, end, {std::string(known.plain.empty() ? known.word : known.plain), std::string(known.hex)}};
      for (const std::string_view shade : {"dark", "light", "pale"}) {
        if (known.word == shade || at < shade.size() + 1 || low.substr(at - shade.size() - 1, shade.size()) != shade)
          continue;
        found.at = at - shade.size() - 1;
        found.colour = {std::string(shade) + " " + found.colour.words,
                        shaded(known.hex, shade == "dark" ? -0.35 : 0.35)};
      }
      out.push_back(std::move(found));
    }
  }
  return out;
}

/// The colour that stands nearest to one of the words, in the same part of the text.
PlainColour beside(const std::string& text, const std::vector<std::string>& words) {
  for (const std::string& part : parts_of(lower(text))) {
    const std::vector<Found> colours = colours_in(part);
    for (const std::string& word : words) {
      if (colours.empty() || !reference::holds_word(part, {word})) continue;
      const std::size_t at = part.find(word), end = at + word.size();
      const auto far = [&](const Found& one) {
        return one.end <= at ? at - one.end : one.at >= end ? one.at - end : 0;
      };
      return std::ranges::min_element(colours, {}, far)->colour;
    }
  }
  return {};
}

}  // namespace

PlainColour colour_in(const std::string& text) {
  if (const auto read = notation::read_colour(text, reference::munsell()); read && read->values)
    return {read->words, read->values->srgb};
  const std::vector<Found> all = colours_in(lower(text));
  if (all.empty()) return {};
  return std::ranges::min_element(all, {}, &Found::at)->colour;
}

FabricColours colours_of(const Fabric& fabric) {
  FabricColours out;
  const std::string& text = fabric.description;
  out.outside = colour_in(fabric.outside);
  out.core = colour_in(fabric.core);
  if (out.outside.hex.empty()) out.outside = beside(text, {"surface", "surfaces", "outside", "throughout", "fired"});
  if (out.core.hex.empty()) out.core = beside(text, {"core", "body", "throughout", "fired", "fracture"});
  if (out.outside.hex.empty()) out.outside = out.core;
  if (out.outside.hex.empty()) out.outside = beside(fabric.name, {"ware", "earthenware", "whiteware", "amphora"});
  if (out.outside.hex.empty()) out.outside = colour_in(fabric.name + "; " + text);
  if (out.outside.hex.empty()) out.outside = {"grey", "#8C8B87"};
  if (out.core.hex.empty()) out.core = out.outside;
  const std::vector<std::string> coats{"glaze", "glazes", "slip", "gloss", "wash", "salt-glazed", "glazed", "glossy"};
  if (reference::holds_word(fabric.name + "; " + text,
                            {"glaze", "glazed", "salt-glazed", "green-glazed", "tin-glazed", "yellow-glazed"})) {
    if (!reference::holds_word(text, {"clear glaze"})) out.glaze = beside(text, coats);
    if (out.glaze.hex.empty())
      out.glaze = beside(fabric.name, {"glaze", "glazed", "green-glazed", "yellow-glazed", "salt-glazed"});
    if (out.glaze.hex.empty()) out.glaze = {"clear", shaded(out.outside.hex, -0.12)};
  }
  return out;
}

}  // namespace sherd::desk
