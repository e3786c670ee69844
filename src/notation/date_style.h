#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "base/result.h"

namespace sherd::notation {

/// Years of a century, counted 1..100 from its first.
struct CenturyPart {
  int first = 1;
  int last = 100;
};

/// An authority's way of writing dates: what its words mean in years.
struct DateStyle {
  std::string name;
  std::string source;
  int century_starts = -99;  ///< the nth century AD begins in 100 n + this: -99 (201) or -100 (200)
  std::array<CenturyPart, 3> parts{{{1, 33}, {34, 67}, {68, 100}}};  ///< early, mid, late
  int circa = 10;                                                    ///< years either side
  bool circa_widens_ranges = true;                                   ///< c. 43-60 is 33-70, else 43-60
  std::optional<int> open_years;                 ///< how far "before" and "after" reach; nothing: without limit
  std::optional<int> flourished = std::nullopt;  ///< years either side of "fl."; nothing: the style does not say
  bool edtf = false;                             ///< the text is EDTF and nothing else
};

std::span<const DateStyle> date_styles();
const DateStyle& default_date_style();
/// Error `unknown_date_style` with the nearest name.
Result<DateStyle> date_style_named(std::string_view name);

}  // namespace sherd::notation
