#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// A sample brought to a group by one factor.
struct Diluted {
  std::string id, record, group, against;
  double factor = 1;                           ///< all amounts times this lie nearest to the group's means
  double misfit_before = 0, misfit_after = 0;  ///< mean squares of (amount - mean) / sd, p and p - 1
  std::string words;

  template <class V>
  static void fields(V& v) {
    v.field("id", &Diluted::id);
    v.field("record", &Diluted::record);
    v.field("group", &Diluted::group);
    v.field("against", &Diluted::against);
    v.field("factor", &Diluted::factor);
    v.field("misfit_before", &Diluted::misfit_before);
    v.field("misfit_after", &Diluted::misfit_after);
    v.field("words", &Diluted::words);
  }
};

struct Dilution {
  std::vector<Diluted> diluted;  ///< members against the others of their group, samples in none against every group
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("diluted", &Dilution::diluted);
    v.field("notes", &Dilution::notes);
  }
};

}  // namespace sherd::chemistry
