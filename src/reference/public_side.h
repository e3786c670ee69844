#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "model/words.h"

/// The rules by which pieces are picked and cautioned of for the public: data/public.
namespace sherd::reference {

/// Which part of what is known of a piece is searched for the words of a theme.
enum class ThemeColumn { vessel_class, form, use, source, decoration, mark, text };
/// The same of a caution.
enum class CautionWhen { always, glaze, body, place, text, burial };

struct ThemeRule {
  std::string theme, title;
  ThemeColumn column = ThemeColumn::text;
  std::vector<std::string> words;  ///< one is enough; "*": anything at all
  std::string source;
};

struct CautionRule {
  std::string caution;
  CautionWhen when = CautionWhen::always;
  std::vector<std::string> words, unless;
  std::string text, source;
};

const std::vector<ThemeRule>& theme_rules();
const std::vector<CautionRule>& caution_rules();

/// Whether one of the words stands in the text as a whole word, letters' case aside.
bool holds_word(std::string_view text, const std::vector<std::string>& words);

}  // namespace sherd::reference

namespace sherd {
template <>
struct Words<reference::ThemeColumn> {
  static constexpr std::array<std::string_view, 7> kNames{"class",      "form", "use", "source",
                                                          "decoration", "mark", "text"};
};
template <>
struct Words<reference::CautionWhen> {
  static constexpr std::array<std::string_view, 6> kNames{"always", "glaze", "body", "place", "text", "burial"};
};
}  // namespace sherd
