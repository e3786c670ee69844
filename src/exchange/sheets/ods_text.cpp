#include "exchange/sheets/ods_text.h"

#include <algorithm>
#include <charconv>

namespace sherd::exchange {
namespace {

bool is_paragraph(const XmlName& name) { return name.local == "p" || name.local == "h"; }

}  // namespace

void OdsText::clear() {
  text_.clear();
  paragraphs_open_ = 0;
  any_paragraph_ = space_waits_ = false;
  at_start_ = true;
}

void OdsText::start(const XmlName& name, const XmlAttributes& attributes) {
  if (name.space != XmlSpace::text) return;
  if (is_paragraph(name)) {
    if (paragraphs_open_++ == 0) {
      if (any_paragraph_) text_ += '\n';
      any_paragraph_ = at_start_ = true;
      space_waits_ = false;
    }
    return;
  }
  if (paragraphs_open_ == 0) return;
  if (name.local == "s") {
    add_spaces(attributes.get(XmlSpace::text, "c"));
  } else if (name.local == "tab" || name.local == "line-break") {
    if (space_waits_) text_ += ' ';
    text_ += name.local == "tab" ? '\t' : '\n';
    space_waits_ = at_start_ = false;
  }
}

void OdsText::end(const XmlName& name) {
  if (name.space != XmlSpace::text || !is_paragraph(name) || paragraphs_open_ == 0) return;
  --paragraphs_open_;  // a space that still waits stood at the end of the paragraph and does not count
}

void OdsText::add_spaces(std::string_view count) {
  std::size_t spaces = 1;
  std::from_chars(count.data(), count.data() + count.size(), spaces);
  if (space_waits_) text_ += ' ';
  space_waits_ = false;
  at_start_ = false;
  text_.append(std::min(spaces, max_bytes_ + 1), ' ');
}

void OdsText::characters(std::string_view text) {
  if (paragraphs_open_ == 0) return;
  for (const char c : text) {
    if (c == ' ' || c == '\t' || c == '\n' || c == '\r') {
      space_waits_ = !at_start_;
      continue;
    }
    if (space_waits_) text_ += ' ';
    space_waits_ = at_start_ = false;
    text_ += c;
  }
}

}  // namespace sherd::exchange
