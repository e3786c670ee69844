#pragma once

#include <compare>
#include <string_view>

namespace sherd::quantify {

/// The order in which people list labels: runs of digits by their value, letters' case aside, so that context 9 comes
/// before 10 and 10A before 10b; labels that are equal in this are ordered by their bytes. Blank comes last.
std::strong_ordering natural_order(std::string_view a, std::string_view b);

struct NaturalLess {
  bool operator()(std::string_view a, std::string_view b) const { return natural_order(a, b) < 0; }
};

}  // namespace sherd::quantify
