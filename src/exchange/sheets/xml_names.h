#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace sherd::exchange {

/// The namespaces that the readers know; two that mean the same (transitional and strict SpreadsheetML) are one.
enum class XmlSpace : std::uint8_t { none, other, sheet, relation, office, table, text, draw, style, calc_extension };

struct XmlName {
  XmlSpace space;
  std::string_view local;
};

/// Resolves prefixes as "Namespaces in XML 1.0" lays down; a prefix without a declaration is `other`. The parser's own
/// resolution hashes the namespace of every attribute, which takes half the time of a large sheet.
class XmlNames {
 public:
  /// At a start tag, before its names are resolved; `attributes` is the list of the parser: name, value ... nullptr.
  void open(const char** attributes);
  /// At an end tag, after its name is resolved.
  void close();
  XmlName element(std::string_view name) const;
  XmlName attribute(std::string_view name) const;

 private:
  struct Binding {
    std::string prefix;
    XmlSpace space;
    int depth;
  };
  XmlSpace space_of(std::string_view prefix, XmlSpace otherwise) const;
  void bind(std::string_view prefix, std::string_view uri);

  std::vector<Binding> bindings_;  ///< those of unknown namespaces only where they hide a known one
  int depth_ = 0;
};

}  // namespace sherd::exchange
