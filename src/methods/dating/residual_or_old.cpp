#include "methods/dating/residual_or_old.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>
#include <utility>

#include "base/numbers.h"
#include "base/text.h"
#include "methods/quantify/natural_order.h"

namespace sherd::dating {

namespace {

using Tokens = std::vector<std::string>;

/// The words of a text in lower case; "water-worn" is two.
Tokens words_of(std::string_view text) {
  Tokens out(1);
  for (const char c : lower(text)) {
    const bool letter = (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
    if (letter) {
      out.back() += c;
    } else if (!out.back().empty()) {
      out.emplace_back();
    }
  }
  if (out.back().empty()) out.pop_back();
  return out;
}

/// One of the words stands there, and nothing before it takes it back.
template <std::size_t N>
bool says(const Tokens& words, const std::array<std::string_view, N>& any) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (std::ranges::find(any, words[i]) == any.end()) continue;
    const bool taken_back = i > 0 && (words[i - 1] == "no" || words[i - 1] == "not" || words[i - 1] == "un");
    if (!taken_back) return true;
  }
  return false;
}

constexpr std::array<std::string_view, 7> kMended{"mended", "mend", "repaired", "repair", "riveted", "rivet", "rivets"};
constexpr std::array<std::string_view, 3> kWhole{"whole", "complete", "intact"};
constexpr std::array<std::string_view, 2> kWorn{"worn", "wear"};
constexpr std::array<std::string_view, 7> kRolled{"abraded", "rolled",  "water",   "weathered",
                                                  "eroded",  "tumbled", "abrasion"};
constexpr std::array<std::string_view, 7> kReworked{"reworked", "reused", "trimmed", "curated",
                                                    "heirloom", "whorl",  "counter"};

/// What is there of a vessel over its lines.
struct Present {
  double rim = 0, base = 0;
  double most() const { return std::max(rim, base); }
};

std::string whole_text(const Present& present) {
  const bool rim = present.rim >= present.base;
  return fmt::format("nearly whole ({} % of its {})", format_fixed(std::min(100.0, present.most()), 0),
                     rim ? "rim" : "base");
}

/// The signs of a line, those of keeping apart from those of use.
struct Signs {
  std::vector<std::string> old, curated;
};

Signs signs_of(const LineSigns& line, const Present& present, std::int64_t years) {
  Signs out;
  const Tokens words = words_of(line.condition);
  const Tokens part = words_of(line.part);
  if (says(words, kReworked) || replace_all(lower(line.condition), " ", "").find("re-used") != std::string::npos)
    out.curated.push_back("kept or re-used (" + std::string(line.condition) + ")");
  const bool profile = std::ranges::find(words, "profile") != words.end();
  if (present.most() >= kNearlyWholePercent) {
    out.old.push_back(whole_text(present));
  } else if ((says(words, kWhole) && !profile) || (part.size() == 1 && says(part, kWhole))) {
    out.old.emplace_back("recorded as whole");
  }
  if (says(words, kMended))
    out.old.push_back(words.size() == 1 ? words[0] : "mended (" + std::string(line.condition) + ")");
  if (says(words, kWorn) && present.most() >= kSubstantialPercent) out.old.emplace_back("worn by use");
  if (line.judged == Judgement::own) {
    out.old.emplace_back("judged own");
  } else if (says(words, kRolled)) {
    out = {};
  } else if (years > kLongestKept) {
    out.old.clear();
  }
  return out;
}

bool over(const LineSigns& line, Year terminus) {
  const bool apart = line.judged == Judgement::residual || line.judged == Judgement::intrusive;
  return !apart && line.range.latest && *line.range.latest < terminus;
}

}  // namespace

std::vector<KeptLong> kept_long(Year terminus, std::span<const LineSigns> lines) {
  std::map<std::string_view, Present> vessels;
  const auto add = [](Present& present, const LineSigns& line) {
    present.rim += line.rim_percent.value_or(0);
    present.base += line.base_percent.value_or(0);
  };
  for (const LineSigns& line : lines) {
    if (!line.vessel.empty()) add(vessels[line.vessel], line);
  }
  std::vector<KeptLong> out;
  std::set<std::pair<std::string_view, Kept>> told;  // a named vessel is told once
  const auto tell = [&](Kept kept, const LineSigns& line, const std::vector<std::string>& signs) {
    if (signs.empty() || (!line.vessel.empty() && !told.emplace(line.vessel, kept).second)) return;
    out.push_back({kept, std::string(line.record), terminus.value - line.range.latest->value, join(signs, "; ")});
  };
  for (const LineSigns& line : lines) {
    if (!over(line, terminus)) continue;
    Present present;
    if (line.vessel.empty()) {
      add(present, line);
    } else {
      present = vessels[line.vessel];
    }
    const Signs signs = signs_of(line, present, terminus.value - line.range.latest->value);
    tell(Kept::curated, line, signs.curated);
    if (signs.curated.empty()) tell(Kept::old_when_discarded, line, signs.old);
  }
  std::stable_sort(out.begin(), out.end(), [](const KeptLong& a, const KeptLong& b) {
    return quantify::natural_order(a.record, b.record) < 0;
  });
  return out;
}

}  // namespace sherd::dating
