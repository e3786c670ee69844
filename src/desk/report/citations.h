#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "model/record_report.h"

namespace sherd::desk {

/// An entry as a bibliography prints it, plain text in the author-date form: "Orton, C., Tyers, P. & Vince, A. 1993.
/// Pottery in Archaeology. Cambridge: Cambridge University Press."
std::string citation_entry(const PublishedWork& work);
/// As the prose cites it: "Orton et al. 1993", "Orton & Hughes 2013".
std::string citation_mark(const PublishedWork& work);

/// Of the works with these keys, years of those that would be cited alike get letters in the order of their titles:
/// "Orton & Tyers 1990a" and "Orton & Tyers 1990b".
void tell_apart(std::vector<PublishedWork>& works, const std::set<std::string>& keys);

/// CSL JSON as rows, the whole entry kept in each. Errors: `not_json`, `not_csl` (the document is no list of entries),
/// `no_key` (an entry without id or title).
Result<std::vector<PublishedWork>> citations_from_csl(std::string_view json);

}  // namespace sherd::desk
