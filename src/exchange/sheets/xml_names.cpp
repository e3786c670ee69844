#include "exchange/sheets/xml_names.h"

#include <array>

namespace sherd::exchange {
namespace {

struct Known {
  std::string_view uri;
  XmlSpace space;
};

// ECMA-376 part 4 annex A (transitional), part 1 annex A (strict); OpenDocument 1.2 part 1, 1.3 (table 1). The last is
// what LibreOffice adds to OpenDocument 1.2 documents of its own.
constexpr std::array kKnown = {
    Known{"http://schemas.openxmlformats.org/spreadsheetml/2006/main", XmlSpace::sheet},
    Known{"http://purl.oclc.org/ooxml/spreadsheetml/main", XmlSpace::sheet},
    Known{"http://schemas.openxmlformats.org/officeDocument/2006/relationships", XmlSpace::relation},
    Known{"http://purl.oclc.org/ooxml/officeDocument/relationships", XmlSpace::relation},
    Known{"urn:oasis:names:tc:opendocument:xmlns:office:1.0", XmlSpace::office},
    Known{"urn:oasis:names:tc:opendocument:xmlns:table:1.0", XmlSpace::table},
    Known{"urn:oasis:names:tc:opendocument:xmlns:text:1.0", XmlSpace::text},
    Known{"urn:oasis:names:tc:opendocument:xmlns:drawing:1.0", XmlSpace::draw},
    Known{"urn:oasis:names:tc:opendocument:xmlns:style:1.0", XmlSpace::style},
    Known{"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0", XmlSpace::calc_extension},
};

}  // namespace

void XmlNames::open(const char** attributes) {
  ++depth_;
  for (const char** at = attributes; *at != nullptr; at += 2) {
    const std::string_view name(at[0]);
    if (!name.starts_with("xmlns")) continue;
    if (name.size() == 5) bind({}, at[1]);
    if (name.size() > 6 && name[5] == ':') bind(name.substr(6), at[1]);
  }
}

void XmlNames::bind(std::string_view prefix, std::string_view uri) {
  XmlSpace space = uri.empty() ? XmlSpace::none : XmlSpace::other;
  for (const Known& known : kKnown)
    if (known.uri == uri) space = known.space;
  const bool known = space != XmlSpace::none && space != XmlSpace::other;
  const bool changes = space_of(prefix, XmlSpace::other) != XmlSpace::other || prefix.empty();
  if (known || changes) bindings_.push_back({std::string(prefix), space, depth_});
}

void XmlNames::close() {
  while (!bindings_.empty() && bindings_.back().depth == depth_) bindings_.pop_back();
  --depth_;
}

XmlSpace XmlNames::space_of(std::string_view prefix, XmlSpace otherwise) const {
  for (auto binding = bindings_.rbegin(); binding != bindings_.rend(); ++binding)
    if (binding->prefix == prefix) return binding->space;
  return otherwise;
}

XmlName XmlNames::element(std::string_view name) const {
  const std::size_t colon = name.find(':');
  if (colon == std::string_view::npos) return {space_of({}, XmlSpace::none), name};
  return {space_of(name.substr(0, colon), XmlSpace::other), name.substr(colon + 1)};
}

XmlName XmlNames::attribute(std::string_view name) const {
  if (name.find(':') == std::string_view::npos) return {XmlSpace::none, name};
  return element(name);
}

}  // namespace sherd::exchange
