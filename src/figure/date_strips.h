#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"
#include "model/year.h"

namespace sherd::figure {

/// The dates of one context.
struct DateStrip {
  std::string name;
  std::string group;              ///< a heading is written where it changes: "Phase 3: tannery"
  YearRange spot;                 ///< by its own pottery; hatched in the upper lane
  bool single = false;            ///< the spot range rests on one vessel: outlined with dashes
  std::optional<Year> terminus;   ///< a tick with an arrow towards later
  bool terminus_carried = false;  ///< from an earlier context: the arrowhead is hollow
  YearRange own;                  ///< the specialist's own date: a bracket
  std::string note;               ///< written where there is no date: "mixed deposit"; "" is "undated"
  std::optional<std::int64_t> n;
  std::string data_set;
  YearRange sequence;  ///< 95 % range of the date in sequence: solid in the lower lane
};

struct DateStripsData {
  About about;
  std::string rows_word;  ///< "contexts"
  std::string n_word;     ///< "sherds"
  std::vector<DateStrip> rows;
};

/// SVG of a strip of two lanes a context: above what its own pottery says, below the date in sequence, which is empty
/// where none was kept.
std::string date_strips(const DateStripsData& data, const Page& page);

/// As `next_row_of_bars`.
std::size_t next_row_of_date_strips(const DateStripsData& data, const Page& page);

}  // namespace sherd::figure
