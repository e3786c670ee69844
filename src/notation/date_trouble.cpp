#include "notation/date_trouble.h"

#include "notation/caret.h"

namespace sherd::notation {

std::unexpected<Error> unreadable_date(std::string_view text, const DateTrouble& trouble) {
  constexpr std::string_view kHint =
      "Readable are for example 120-250, 1120-35, c. 1350, C2, L13-E14, early 2nd century, 1st half C13, Q3 C2, 50 "
      "BC-AD "
      "70, 270+, pre-410, C13?, undated.";
  return unreadable("unreadable_date", "cannot read the date", text, trouble.at, trouble.why, kHint);
}

}  // namespace sherd::notation
