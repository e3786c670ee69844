#pragma once

#include <map>
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

/// CSL JSON as rows, the whole entry kept in each. Errors: `not_json`, `not_csl` (the document is no list of entries),
/// `no_key` (an entry without id or title).
Result<std::vector<PublishedWork>> citations_from_csl(std::string_view json);

}  // namespace sherd::desk
