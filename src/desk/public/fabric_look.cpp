#include "desk/public/fabric_look.h"

#include <algorithm>
#include <array>
#include <optional>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/public/object_words.h"
#include "desk/public/plain_colour.h"
#include "reference/public_side.h"

namespace sherd::desk {

namespace {

using reference::holds_word;

/// Grains as the words of descriptions name them. Colours and plain words are ours; common practice, no source.
struct KnownGrain {
  std::string_view word, plain, colour;
  bool flat;
  double size_mm;
};
constexpr std::array kGrains{KnownGrain{"quartz", "sand", "#DAD6CC", false, 0.4},
                             KnownGrain{"sand", "sand", "#DAD6CC", false, 0.4},
                             KnownGrain{"shell", "flat bits of shell", "#EDE7D8", true, 1.6},
                             KnownGrain{"flint", "sharp chips of flint", "#B9B6AE", false, 1.2},
                             KnownGrain{"chalk", "white chalk", "#F6F2E8", false, 0.7},
                             KnownGrain{"limestone", "white stone", "#F0EADB", false, 0.9},
                             KnownGrain{"mica", "glitter", "#F4EFD4", true, 0.2},
                             KnownGrain{"iron", "rusty specks", "#6B2E1F", false, 0.5},
                             KnownGrain{"red specks", "red specks", "#8F3B22", false, 0.3},
                             KnownGrain{"red grains", "red specks", "#8F3B22", false, 0.4},
                             KnownGrain{"grog", "crushed pot", "#A86A4A", false, 1.0},
                             KnownGrain{"chaff", "holes of burnt straw", "#2E2A26", true, 2.5},
                             KnownGrain{"rock", "bits of rock", "#8D867B", false, 1.0},
                             KnownGrain{"feldspar", "pale grains", "#E6D5C6", false, 0.8},
                             KnownGrain{"shale", "dark flat bits", "#55504A", true, 0.8},
                             KnownGrain{"grits", "big grits", "#CFCAC0", false, 2.5},
                             KnownGrain{"specks", "tiny specks", "#F0E9DA", false, 0.15}};

struct Frequency {
  std::string_view word, plain;
  double share;
};
constexpr std::array kFrequencies{Frequency{"abundant", "very much", 0.28}, Frequency{"very common", "much", 0.2},
                                  Frequency{"common", "much", 0.16},        Frequency{"moderate", "some", 0.09},
                                  Frequency{"sparse", "a little", 0.04},    Frequency{"rare", "hardly any", 0.015},
                                  Frequency{"thickly", "much", 0.14},       Frequency{"minute", "a little", 0.03}};

std::vector<std::string> clauses_of(const std::string& text) {
  std::vector<std::string> out;
  std::string one;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool point = text[i] == '.' && (i + 1 == text.size() || text[i + 1] == ' ');
    if (point || text[i] == ',' || text[i] == ';') {
      out.push_back(std::move(one));
      one.clear();
    } else {
      one += text[i];
    }
  }
  out.push_back(std::move(one));
  return out;
}

/// "to 0.8 mm" in a clause.
std::optional<double> size_in(const std::string& clause) {
  const std::size_t unit = clause.find(" mm");
  if (unit == std::string::npos) return std::nullopt;
  const std::size_t from = clause.find_last_of(" -", unit - 1);
  const auto value = parse_scaled(clause.substr(from == std::string::npos ? 0 : from + 1, unit - from - 1), 3);
  return value ? std::optional(static_cast<double>(*value) / 1000) : std::nullopt;
}

const KnownGrain* grain_in(std::string_view text) {
  for (const KnownGrain& known : kGrains) {
    if (holds_word(text, {std::string(known.word)})) return &known;
  }
  return nullptr;
}
const Frequency* frequency_in(std::string_view text) {
  for (const Frequency& known : kFrequencies) {
    if (holds_word(text, {std::string(known.word)})) return &known;
  }
  return nullptr;
}

struct Seen {
  const KnownGrain* grain;
  const Frequency* frequency;
  double size_mm;
};

std::vector<Seen> grains_of(const Fabric& fabric, const std::vector<Inclusion>& inclusions) {
  std::vector<Seen> out;
  const auto add = [&](const std::string& name, const std::string& how_many, std::optional<double> size,
                       double factor) {
    const KnownGrain* grain = grain_in(name);
    const Frequency* frequency = frequency_in(how_many);
    if (!grain || !frequency) return;
    const auto same = std::ranges::find_if(out, [&](const Seen& one) { return one.grain->plain == grain->plain; });
    if (same == out.end()) out.push_back({grain, frequency, size.value_or(grain->size_mm * factor)});
  };
  for (const Inclusion& one : inclusions) {
    if (one.fabric != fabric.fabric) continue;
    std::optional<double> size;
    if (one.size_most)
      size = one.size_least ? (one.size_least->mm() + one.size_most->mm()) / 2 : one.size_most->mm() * 0.7;
    add(one.inclusion, one.frequency, size, 1);
  }
  if (!out.empty()) return out;
  std::string frequency;
  for (const std::string& clause : clauses_of(fabric.description)) {
    if (frequency_in(clause)) frequency = clause;
    auto size = size_in(clause);
    if (size) *size *= 0.7;
    add(clause, frequency, size, holds_word(clause, {"fine"}) ? 0.45 : 1);
  }
  return out;
}

std::string grain_sentence(const std::vector<Seen>& grains) {
  std::string out;
  for (std::size_t i = 0; i < std::min<std::size_t>(grains.size(), 2); ++i)
    out +=
        (out.empty() ? "" : ", ") + std::string(grains[i].frequency->plain) + " " + std::string(grains[i].grain->plain);
  return out.empty() ? "" : as_sentence("In the break: " + out);
}

std::string feel_sentence(const std::string& text) {
  struct Feel {
    std::string word;
    std::string_view plain;
  };
  static const std::array kFeels{Feel{"vitrified", "Like stone, very hard"},
                                 Feel{"harsh", "Feels rough"},
                                 Feel{"gritty", "Feels gritty"},
                                 Feel{"granular", "Feels grainy"},
                                 Feel{"soapy", "Feels soapy"},
                                 Feel{"powdery", "Leaves powder on the finger"},
                                 Feel{"soft", "Soft"},
                                 Feel{"smooth", "Feels smooth"},
                                 Feel{"fine", "Fine and even"}};
  for (const Feel& one : kFeels) {
    if (holds_word(text, {one.word})) return std::string(one.plain) + ".";
  }
  return {};
}

}  // namespace

figure::SherdPattern pattern_of(const std::string& decoration) {
  using figure::SherdPattern;
  struct Known {
    std::string word;
    SherdPattern pattern;
  };
  static const std::array kKnown{Known{"lattice", SherdPattern::lattice},    Known{"wavy", SherdPattern::wave},
                                 Known{"wave", SherdPattern::wave},          Known{"combed", SherdPattern::combed},
                                 Known{"trailed", SherdPattern::trailed},    Known{"strips", SherdPattern::strips},
                                 Known{"strip", SherdPattern::strips},       Known{"printed", SherdPattern::printed},
                                 Known{"print", SherdPattern::printed},      Known{"painted", SherdPattern::printed},
                                 Known{"polychrome", SherdPattern::printed}, Known{"scales", SherdPattern::dots},
                                 Known{"rouletted", SherdPattern::lines},    Known{"lines", SherdPattern::lines},
                                 Known{"line", SherdPattern::lines},         Known{"banded", SherdPattern::lines},
                                 Known{"grooves", SherdPattern::lines},      Known{"edge", SherdPattern::lines}};
  for (const Known& one : kKnown) {
    if (holds_word(decoration, {one.word})) return one.pattern;
  }
  return SherdPattern::none;
}

FabricLook fabric_look(const Fabric& fabric, const std::vector<Inclusion>& inclusions, const std::string& decoration) {
  FabricLook out;
  const FabricColours colours = colours_of(fabric);
  out.look.surface = colours.outside.hex;
  out.look.margin = colours.outside.hex;
  out.look.core = colours.core.hex;
  out.look.glaze = colours.glaze.hex;
  const std::string all = fabric.name + "; " + fabric.description;
  out.look.shiny = holds_word(all, {"glossy", "gloss", "burnished", "metallic", "glaze", "glazed"});
  out.look.pattern = pattern_of(decoration.empty() ? fabric.name : decoration);
  const bool coloured =
      out.look.pattern == figure::SherdPattern::printed || out.look.pattern == figure::SherdPattern::trailed;
  if (coloured) {
    const PlainColour own = colour_in(decoration.empty() ? all : decoration + "; " + fabric.name);
    out.look.pattern_colour = out.look.pattern == figure::SherdPattern::trailed ? "#F0E6CC"
                              : own.hex.empty()                                 ? "#3E5C8C"
                                                                                : own.hex;
  }
  const std::vector<Seen> grains = grains_of(fabric, inclusions);
  for (const Seen& one : grains)
    out.look.grains.push_back({std::string(one.grain->colour), one.size_mm, one.frequency->share, one.grain->flat});
  out.sentences.push_back(as_sentence(colours.outside.words + " outside, " + colours.core.words + " in the break"));
  if (!colours.glaze.words.empty())
    out.sentences.push_back(
        as_sentence((colours.glaze.words == "clear" ? "Clear" : colours.glaze.words) + " shiny glaze"));
  if (const std::string seen = grain_sentence(grains); !seen.empty()) out.sentences.push_back(seen);
  if (const std::string feel = feel_sentence(all); !feel.empty()) out.sentences.push_back(feel);
  if (!decoration.empty()) out.sentences.push_back(as_sentence("May have " + decoration));
  return out;
}

}  // namespace sherd::desk
