#include "methods/dating/when_words.h"

#include <algorithm>
#include <vector>

#include "base/text.h"

namespace sherd::dating {

namespace {

std::string made(const ObjectDate& date) {
  if (date.earliest && date.latest) {
    if (*date.earliest == *date.latest) return "made in " + year_text(*date.earliest);
    const bool era = date.earliest->value < 1 && date.latest->value >= 1;
    return "made between " + year_text(*date.earliest) + " and " + (era ? "AD " : "") + year_text(*date.latest);
  }
  return "made in " + range_text({date.earliest, date.latest});
}

std::string most_likely(const ObjectDate& date) {
  if (!date.most_likely) return {};
  return range_text({date.most_likely->front(), date.most_likely->back()});
}

const WhenConflict* conflict_over_years(const ObjectDate& date) {
  const auto found = std::find_if(date.conflicts.begin(), date.conflicts.end(), [](const WhenConflict& conflict) {
    return conflict.code == "no_year_fits" || conflict.code == "spans_miss";
  });
  return found == date.conflicts.end() ? nullptr : &*found;
}

std::string aside(const WhenConflict& conflict) {
  std::vector<std::string> ways;
  for (const WhenDrop& drop : conflict.drop) {
    std::string way = join(drop.evidence, " and ");
    if (drop.earliest || drop.latest) way += " (then " + range_text({drop.earliest, drop.latest}) + ")";
    ways.push_back(std::move(way));
  }
  return ways.empty() ? std::string{} : "set aside " + join(ways, ", or ");
}

}  // namespace

std::string statement_of(const ObjectDate& date) {
  const std::string likely = most_likely(date);
  if (const WhenConflict* conflict = conflict_over_years(date)) {
    if (conflict->code == "no_year_fits") return "no year fits all the evidence: " + aside(*conflict);
    return "no year lies within all the spans, but their margins meet: most likely " + likely + "; else " +
           aside(*conflict);
  }
  if (date.earliest || date.latest) {
    const bool says_more = !likely.empty() && likely != range_text({date.earliest, date.latest});
    return made(date) + (says_more ? ", most likely " + likely : "");
  }
  if (date.because.empty()) return "not dated: nothing that is known holds for what was seen";
  return likely.empty() ? "not dated: the evidence sets no limit" : "usually made " + likely + "; no limit is known";
}

}  // namespace sherd::dating
