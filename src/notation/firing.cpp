#include "notation/firing.h"

#include <algorithm>
#include <cstdint>
#include <expected>

#include "base/text.h"
#include "notation/caret.h"

namespace sherd::notation {

namespace {

using Zones = std::array<std::optional<Firing>, 5>;
using Mask = std::uint32_t;  ///< bit i: zone i

constexpr std::size_t kLongest = 200;  ///< bytes
constexpr Mask kAll = 0b11111;
constexpr Mask kMargins = 0b01010;
constexpr Mask kSurfaces = 0b10001;
constexpr std::string_view kStart = "cannot read the firing";
constexpr std::string_view kHint =
    "Readable are for example: outside oxidised, core dark, inside reduced; oxidised throughout; oxidised with a grey "
    "core; O/U/O for outside, core and inside.";

struct ZoneWord {
  std::string_view word;
  Mask zones;
};
constexpr std::array<ZoneWord, 20> kZoneWords{{{"outside", 1},         {"exterior", 1},      {"external", 1},
                                               {"outer", 1},           {"ext", 1},           {"core", 4},
                                               {"centre", 4},          {"inside", 16},       {"interior", 16},
                                               {"internal", 16},       {"inner", 16},        {"int", 16},
                                               {"margins", kMargins},  {"margin", kMargins}, {"surfaces", kSurfaces},
                                               {"surface", kSurfaces}, {"throughout", kAll}, {"fully", kAll},
                                               {"all", kAll},          {"rest", 0}}};

struct FiringWord {
  std::string_view word;
  Firing firing;
  bool colour;  ///< a colour, taken for a firing
};
constexpr std::array<FiringWord, 24> kFiringWords{{{"oxidised", Firing::oxidised, false},
                                                   {"oxidized", Firing::oxidised, false},
                                                   {"unoxidised", Firing::unoxidised, false},
                                                   {"unoxidized", Firing::unoxidised, false},
                                                   {"incompletely-oxidised", Firing::unoxidised, false},
                                                   {"reduced", Firing::reduced, false},
                                                   {"irregular", Firing::irregular, false},
                                                   {"irregularly", Firing::irregular, false},
                                                   {"patchy", Firing::irregular, false},
                                                   {"variable", Firing::irregular, false},
                                                   {"dark", Firing::unoxidised, true},
                                                   {"grey", Firing::unoxidised, true},
                                                   {"gray", Firing::unoxidised, true},
                                                   {"black", Firing::unoxidised, true},
                                                   {"blackened", Firing::unoxidised, true},
                                                   {"red", Firing::oxidised, true},
                                                   {"reddish", Firing::oxidised, true},
                                                   {"orange", Firing::oxidised, true},
                                                   {"buff", Firing::oxidised, true},
                                                   {"pink", Firing::oxidised, true},
                                                   {"brown", Firing::oxidised, true},
                                                   {"cream", Firing::oxidised, true},
                                                   {"yellow", Firing::oxidised, true},
                                                   {"white", Firing::oxidised, true}}};
constexpr std::array<std::string_view, 12> kSmallWords{"and", "with", "a",    "an",   "the", "fired",
                                                       "is",  "are",  "both", "zone", "on",  "of"};

struct Word {
  std::string text;
  std::size_t at = 0;
  bool comma = false;  ///< a comma, semicolon or slash stands before it
};

struct Trouble {
  std::size_t at = 0;
  std::string why;
};

std::vector<Word> words_of(std::string_view text) {
  std::vector<Word> out;
  bool comma = false;
  for (std::size_t i = 0; i < text.size();) {
    const bool letter = (text[i] >= 'a' && text[i] <= 'z') || (text[i] >= 'A' && text[i] <= 'Z') || text[i] == '-' ||
                        static_cast<unsigned char>(text[i]) >= 0x80 || (text[i] >= '0' && text[i] <= '9');
    if (!letter) {
      comma = comma || text[i] == ',' || text[i] == ';' || text[i] == '/';
      ++i;
      continue;
    }
    const std::size_t start = i;
    while (i < text.size() && std::string_view(" \t,;/.:()\n\r").find(text[i]) == std::string_view::npos) ++i;
    out.push_back({lower(text.substr(start, i - start)), start, comma});
    comma = false;
  }
  return out;
}

/// "O/U/O" or five letters; nothing where the text is not of that kind.
std::optional<Zones> letters(std::string_view text) {
  const auto parts = split(text, '/');
  if (parts.size() != 3 && parts.size() != 5) return std::nullopt;
  Zones out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const std::string part = lower(trim(parts[i]));
    std::optional<Firing>& zone = out[parts.size() == 3 ? 2 * i : i];
    if (part == "o")
      zone = Firing::oxidised;
    else if (part == "u")
      zone = Firing::unoxidised;
    else if (part == "r")
      zone = Firing::reduced;
    else if (part == "i")
      zone = Firing::irregular;
    else if (part != "-" && part != "?")
      return std::nullopt;
  }
  if (std::ranges::none_of(out, [](const auto& zone) { return zone.has_value(); })) return std::nullopt;
  return out;
}

class Reader {
 public:
  explicit Reader(std::string_view text) : words_(words_of(text)) {}

  std::expected<FiringReading, Trouble> read() {
    while (at_ < words_.size()) {
      if (auto trouble = clause()) return std::unexpected(*trouble);
    }
    if (rest_) {
      for (auto& zone : reading_.zones) {
        if (!zone) zone = rest_;
      }
    }
    if (std::ranges::none_of(reading_.zones, [](const auto& zone) { return zone.has_value(); }))
      return std::unexpected(Trouble{0, "no zone is given a firing"});
    return std::move(reading_);
  }

 private:
  using MaybeTrouble = std::optional<Trouble>;

  /// Words up to the next comma, or up to where a second firing would begin.
  MaybeTrouble clause() {
    Mask zones = 0;
    bool rest = false;
    std::optional<Firing> firing;
    const std::size_t start = words_[at_].at;
    while (at_ < words_.size()) {
      const Word& word = words_[at_];
      if (word.comma && (firing || zones != 0 || rest) && word.at != start && firing) break;
      if (std::ranges::find(kSmallWords, word.text) != kSmallWords.end()) {
        if (word.text == "with" && firing) break;  // oxidised with a grey core
        ++at_;
        continue;
      }
      if (const auto zone = zone_at()) {
        if (firing && zones != 0) break;  // "core dark inside reduced"
        zones |= *zone;
        rest = rest || word.text == "rest";
        at_ += *zone == 0 ? 1 : zone_words_;
        continue;
      }
      const auto said = firing_at();
      if (!said) return Trouble{word.at, "neither a zone nor a firing"};
      if (firing && *said != *firing) {
        if (zones != 0) break;
        return Trouble{word.at, "a second firing without a zone"};
      }
      firing = said;
    }
    if (!firing) return Trouble{start, "this zone is given no firing"};
    return put(zones, rest, *firing, start);
  }

  MaybeTrouble put(Mask zones, bool rest, Firing firing, std::size_t at) {
    if (zones == 0 || rest) {
      if (rest_) return Trouble{at, "the whole was given a firing before"};
      rest_ = firing;
      return std::nullopt;
    }
    for (std::size_t i = 0; i < 5; ++i) {
      if ((zones >> i & 1U) == 0) continue;
      if (reading_.zones[i] && *reading_.zones[i] != firing)
        return Trouble{at, "the " + std::string(word(static_cast<FiringZone>(i))) + " was given another firing before"};
      reading_.zones[i] = firing;
    }
    return std::nullopt;
  }

  /// A zone that begins here, "outer margin" and "inner surface" among them.
  std::optional<Mask> zone_at() {
    const auto found = std::ranges::find(kZoneWords, words_[at_].text, &ZoneWord::word);
    if (found == kZoneWords.end()) return std::nullopt;
    zone_words_ = 1;
    const std::string_view next = at_ + 1 < words_.size() ? std::string_view(words_[at_ + 1].text) : "";
    if (found->zones == 1 || found->zones == 16) {
      if (next == "surface") zone_words_ = 2;
      if (next == "margin" || next == "margins") {
        zone_words_ = 2;
        return found->zones == 1 ? Mask{2} : Mask{8};
      }
    }
    return found->zones;
  }

  std::optional<Firing> firing_at() {
    std::string text = words_[at_].text;
    std::size_t used = 1;
    if ((text == "incompletely" || text == "partly" || text == "partially" || text == "not") &&
        at_ + 1 < words_.size() && words_[at_ + 1].text.starts_with("oxidi")) {
      text = "unoxidised";
      used = 2;
    }
    for (const std::string_view shade : {"light", "pale", "mid", "very", "bright"}) {
      if (text == shade && at_ + 1 < words_.size()) {
        text = words_[at_ + 1].text;
        used = 2;
      }
    }
    const auto found = std::ranges::find(kFiringWords, text, &FiringWord::word);
    if (found == kFiringWords.end()) return std::nullopt;
    at_ += used;
    if (found->colour) {
      std::string note = "\"" + text + "\" was taken for " + std::string(word(found->firing));
      if (found->firing == Firing::unoxidised)
        note += ", not for reduced: carbon that did not burn out looks the same (after PCRG 2010, from memory)";
      if (std::ranges::find(reading_.because, note) == reading_.because.end()) reading_.because.push_back(note);
    }
    return found->firing;
  }

  std::vector<Word> words_;
  std::size_t at_ = 0;
  std::size_t zone_words_ = 1;
  std::optional<Firing> rest_;
  FiringReading reading_;
};

/// What such a section usually means; the words are common practice and have no source.
void explain(FiringReading& reading) {
  const auto is = [&](std::size_t zone, Firing firing) { return reading.zones[zone] == firing; };
  const bool dark_core = is(2, Firing::unoxidised) || is(2, Firing::reduced);
  const auto add = [&](std::string_view text) {
    reading.because.push_back(std::string(text) + " (common practice, no source)");
  };
  if (std::ranges::all_of(reading.zones, [](const auto& zone) { return zone == Firing::oxidised; })) {
    add("oxidised throughout: enough air and time for the carbon to burn out");
  } else if (is(0, Firing::oxidised) && is(4, Firing::oxidised) && dark_core) {
    add("oxidised surfaces on a dark core: fired too short or too fast for the carbon of the core to burn out");
  } else if (is(0, Firing::oxidised) && (is(4, Firing::reduced) || is(4, Firing::unoxidised))) {
    add("outside oxidised, inside not: less air came to the inside, as in a vessel stacked mouth down");
  } else if ((is(0, Firing::reduced) || is(0, Firing::unoxidised)) && is(2, Firing::oxidised)) {
    add("dark surfaces on an oxidised core: smoked or reduced at the end of the firing, or darkened in use");
  }
}

}  // namespace

std::string firing_text(const std::array<std::optional<Firing>, 5>& zones) {
  const bool one = zones[0] && std::ranges::all_of(zones, [&](const auto& zone) { return zone == zones[0]; });
  if (one) return std::string(word(*zones[0])) + " throughout";
  std::vector<std::string> parts;
  for (std::size_t i = 0; i < zones.size(); ++i) {
    if (zones[i]) parts.push_back(std::string(word(static_cast<FiringZone>(i))) + " " + std::string(word(*zones[i])));
  }
  return join(parts, ", ");
}

Result<FiringReading> read_firing(std::string_view text) {
  text = trim(text);
  const auto refuse = [text](std::size_t at, std::string_view why) {
    return unreadable("unreadable_firing", kStart, text, at, why, kHint);
  };
  if (text.empty()) return refuse(0, "there is nothing here");
  if (text.size() > kLongest) return refuse(0, "this is too long for a firing");
  if (!is_utf8(text)) return refuse(0, "this is no readable text");
  FiringReading reading;
  if (const auto zones = letters(text)) {
    reading.zones = *zones;
    reading.because.push_back("letters from outside to inside: O oxidised, I irregular, U unoxidised, R reduced");
  } else {
    auto read = Reader(text).read();
    if (!read) return refuse(read.error().at, read.error().why);
    reading = std::move(*read);
  }
  explain(reading);
  reading.words = firing_text(reading.zones);
  return reading;
}

}  // namespace sherd::notation
