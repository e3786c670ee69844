#include "notation/date_style.h"

#include <algorithm>
#include <vector>

#include "base/text.h"

namespace sherd::notation {

namespace {

const std::vector<DateStyle>& all_styles() {
  static const std::vector<DateStyle> styles{
      {.name = "default",
       .source = "centuries 100n-99 to 100n and thirds as in the formula of J. Petrovay, \"Search dates\" (2010); "
                 "circa as in Object ID; open ends without limit are our own",
       .open_years = std::nullopt},
      {.name = "cco",
       .source = "Cataloging Cultural Objects (Visual Resources Association), 4.2.3.2: circa 5 years either side; "
                 "centuries and their parts are not given there and are those of the default",
       .circa = 5,
       .open_years = std::nullopt},
      {.name = "object-id",
       .source = "Object ID (ICOM), guide to dates: circa 10 years either side, before and after reach 100 years, "
                 "a maker flourished 20 years either side; centuries and their parts are not given there and are "
                 "those of the default",
       .open_years = 100,
       .flourished = 20},
      {.name = "ucsd",
       .source = "University of California San Diego, image description guide: 16th century 1500-1599, early 19th "
                 "1800-1825, mid 13th 1235-1265, circa 5 years either side of a year and no widening of a range; late "
                 "(76-99) and centuries BC are mirrored by us",
       .century_starts = -100,
       .parts = {{{1, 26}, {36, 66}, {76, 100}}},
       .circa = 5,
       .circa_widens_ranges = false,
       .open_years = std::nullopt},
      {.name = "mid-30-70",
       .source = "common practice of pottery reports, from memory: the middle of a century is 30-70; early (1-40) and "
                 "late (60-100) are ours and overlap it",
       .parts = {{{1, 40}, {30, 70}, {60, 100}}},
       .open_years = std::nullopt},
      {.name = "quarters",
       .source =
           "common practice of pottery reports, from memory: early and late are the first and the last quarter of "
           "a century, mid is the half between them",
       .parts = {{{1, 25}, {26, 75}, {76, 100}}},
       .open_years = std::nullopt},
      {.name = "edtf",
       .source = "Extended Date/Time Format, Library of Congress, 4 February 2019 (ISO 8601-2:2019), levels 0 to 2; "
                 "no other notation is read by it",
       .century_starts = -100,
       .open_years = std::nullopt,
       .edtf = true},
  };
  return styles;
}

}  // namespace

std::span<const DateStyle> date_styles() { return all_styles(); }

const DateStyle& default_date_style() { return all_styles().front(); }

Result<DateStyle> date_style_named(std::string_view name) {
  const std::string wanted = lower(trim(name));
  std::vector<std::string> names;
  for (const DateStyle& style : all_styles()) {
    if (style.name == wanted) return style;
    names.push_back(style.name);
  }
  const std::string near = did_you_mean(wanted, names);
  return fail("unknown_date_style", "There is no date style \"" + shortened(name, 40) + "\".",
              (near.empty() ? std::string{} : near + " ") + "Known styles: " + join(names, ", ") + ".");
}

}  // namespace sherd::notation
