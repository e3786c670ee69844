#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sherd::reference {

/// A term of the trade in words that a child of twelve can read.
struct GlossaryTerm {
  std::string term;
  std::vector<std::string> also;  ///< other words for it, as codes and texts have them
  std::string meaning, source;
};

/// data/glossary.csv, read once, in the order of its rows: by the alphabet.
const std::vector<GlossaryTerm>& glossary();
/// By its term or another word for it, letters' case aside; nullptr where it is not known.
const GlossaryTerm* glossary_term(std::string_view word);

}  // namespace sherd::reference
