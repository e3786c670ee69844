#pragma once

#include <string_view>

namespace sherd::prose {

/// Syllables of an English word by its spelling: groups of vowels, less those that are silent (made, places, baked),
/// more where two vowels are spoken apart (clay-ing, idea, radius). At least 1; a number counts as the word it would
/// be with a syllable for each digit. Rules of spelling are wrong now and then: docs/methods/readability.md says how
/// often.
int syllables(std::string_view word);

}  // namespace sherd::prose
