#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "exchange/sheets/xml_reader.h"

namespace sherd::exchange {

/// The text of one cell of an OpenDocument spreadsheet: paragraphs joined by line feeds, white space collapsed and the
/// elements for spaces, tabs and line breaks put in (OpenDocument 1.2 part 1, 6.1.2 to 6.1.5).
class OdsText {
 public:
  explicit OdsText(std::size_t max_bytes) : max_bytes_(max_bytes) {}

  void clear();
  void start(const XmlName& name, const XmlAttributes& attributes);
  void end(const XmlName& name);
  void characters(std::string_view text);

  const std::string& text() const { return text_; }
  bool too_large() const { return text_.size() > max_bytes_; }

 private:
  void add_spaces(std::string_view count);

  std::size_t max_bytes_;
  std::string text_;
  int paragraphs_open_ = 0;
  bool any_paragraph_ = false;
  bool space_waits_ = false;  ///< white space seen, written before the next character
  bool at_start_ = true;      ///< nothing of the paragraph written yet
};

}  // namespace sherd::exchange
