#pragma once

#include <string>
#include <utility>
#include <vector>

namespace sherd::report {

/// A term of the glossary as a page has it.
struct PageTerm {
  std::string term, meaning;
};

/// One object of a display. Pictures are SVG; the photograph, where there is one, is a data: address.
struct PageObject {
  std::string id, title, kicker, picture, photo, years;
  std::vector<std::pair<std::string, std::string>> texts;  ///< question, answer
  std::string caution, foot;
};

/// A small set of pages for a display, an open day or a school.
struct PublicPages {
  std::string title, lead;
  std::vector<PageObject> objects;
  std::vector<PageTerm> terms;     ///< those that the texts use
  std::vector<std::string> mind;   ///< what to mind, in sentences
  std::vector<std::string> about;  ///< how hard the texts are to read, what they rest on
  bool small_paper = false;        ///< printed on A6, a card a page; else on A4
};

/// One self-contained HTML file, no script: all objects as pictures, a page each, the words, how it was made. The first
/// time that an object's text uses a term of the glossary it is tied to its meaning.
std::string public_pages_html(const PublicPages& pages);

/// Terms that stand in the text as whole words, also with an s behind; in the order of `terms`.
std::vector<PageTerm> terms_in(const std::string& text, const std::vector<PageTerm>& terms);

}  // namespace sherd::report
