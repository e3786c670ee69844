#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "methods/chemistry/membership_result.h"

namespace sherd::chemistry {

/// A reference group and the place it stands for.
struct OriginPlace {
  std::string group, name;
  std::optional<double> east, north;
  std::int64_t n = 0;  ///< reference samples

  template <class V>
  static void fields(V& v) {
    v.field("group", &OriginPlace::group);
    v.field("name", &OriginPlace::name);
    v.field("east", &OriginPlace::east);
    v.field("north", &OriginPlace::north);
    v.field("n", &OriginPlace::n);
  }
};

/// A sherd and where it may come from.
struct OriginOf {
  std::string id, record;
  std::vector<Candidate> candidates;  ///< at or above the level, the likeliest first
  std::vector<Candidate> rejected;    ///< below it
  bool none_of_these = false;
  std::string words;

  template <class V>
  static void fields(V& v) {
    v.field("id", &OriginOf::id);
    v.field("record", &OriginOf::record);
    v.field("candidates", &OriginOf::candidates);
    v.field("rejected", &OriginOf::rejected);
    v.field("none_of_these", &OriginOf::none_of_these);
    v.field("words", &OriginOf::words);
  }
};

struct Origin {
  std::vector<std::string> variables;
  double level = 0;
  std::vector<OriginPlace> places;    ///< of groups that could be measured against
  std::vector<RefusedGroup> refused;  ///< and those that could not: nothing is known of them
  std::vector<OriginOf> sherds;       ///< samples without a group, or those asked for
  std::int64_t none_of_these = 0;
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("variables", &Origin::variables);
    v.field("level", &Origin::level);
    v.field("places", &Origin::places);
    v.field("refused", &Origin::refused);
    v.field("sherds", &Origin::sherds);
    v.field("none_of_these", &Origin::none_of_these);
    v.field("notes", &Origin::notes);
  }
};

}  // namespace sherd::chemistry
