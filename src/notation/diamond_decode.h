#pragma once

#include <expected>
#include <optional>
#include <string>
#include <vector>

#include "model/mark_tables.h"
#include "notation/diamond_text.h"

namespace sherd::notation {

/// What each part was taken to be, in one way of reading the diamond.
struct Placing {
  std::optional<DiamondSign> year, month, day, parcel;

  std::optional<DiamondSign>& of(DiamondPart part) {
    switch (part) {
      case DiamondPart::year:
        return year;
      case DiamondPart::month:
        return month;
      case DiamondPart::day:
        return day;
      case DiamondPart::parcel:
        break;
    }
    return parcel;
  }
};

/// A day, or the reason why there is none.
struct Decoded {
  CalendarDay day;
  Known known = Known::read;
  std::string source;
  std::string note;     ///< an exception that was used
  std::string trouble;  ///< why there is no such day
  std::size_t at = 0;   ///< of the trouble
};

/// "series 1 (1842-67)"
std::string series_text(const DiamondSeries& series);

/// Every way in which the signs fit this series; where the corners do not fit it, the reason.
std::expected<std::vector<Placing>, DiamondTrouble> placings(const WrittenDiamond& written,
                                                             const DiamondSeries& series);

/// Every day that these signs may stand for; one with its trouble where there is none.
std::vector<Decoded> decode(const Placing& placing, const DiamondSeries& series, const DiamondTables& tables);

}  // namespace sherd::notation
