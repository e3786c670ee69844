#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// A single amount that the others of its group do not expect.
struct OddCell {
  std::string id, record, group, part;
  double value = 0;
  std::array<double, 2> expected{};  ///< where 95 of 100 of such samples lie, by the others of the group
  std::string scale;                 ///< "as measured" or "log10": on which it stands out more
  double t = 0;
  std::int64_t df = 0;
  double p = 1, p_adjusted = 1;  ///< alone; for looking at every cell of the group on two scales
  std::string words;

  template <class V>
  static void fields(V& v) {
    v.field("id", &OddCell::id);
    v.field("record", &OddCell::record);
    v.field("group", &OddCell::group);
    v.field("part", &OddCell::part);
    v.field("value", &OddCell::value);
    v.field("expected", &OddCell::expected);
    v.field("scale", &OddCell::scale);
    v.field("t", &OddCell::t);
    v.field("df", &OddCell::df);
    v.field("p", &OddCell::p);
    v.field("p_adjusted", &OddCell::p_adjusted);
    v.field("words", &OddCell::words);
  }
};

/// A sample whose parts together its group does not expect.
struct OddSample {
  std::string id, record, group;
  double distance2_left_out = 0, p = 1, p_adjusted = 1;  ///< adjusted for looking at every member

  template <class V>
  static void fields(V& v) {
    v.field("id", &OddSample::id);
    v.field("record", &OddSample::record);
    v.field("group", &OddSample::group);
    v.field("distance2_left_out", &OddSample::distance2_left_out);
    v.field("p", &OddSample::p);
    v.field("p_adjusted", &OddSample::p_adjusted);
  }
};

struct Outliers {
  double level = 0;                   ///< of p_adjusted
  std::vector<OddCell> cells;         ///< the oddest first
  std::vector<OddSample> samples;     ///< the oddest first
  std::vector<std::string> unjudged;  ///< groups too small for all variables together
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("level", &Outliers::level);
    v.field("odd_cells", &Outliers::cells);
    v.field("odd_samples", &Outliers::samples);
    v.field("unjudged", &Outliers::unjudged);
    v.field("notes", &Outliers::notes);
  }
};

}  // namespace sherd::chemistry
