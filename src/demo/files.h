#pragma once

#include <string>
#include <vector>

#include "demo/site.h"

namespace sherd::demo {

struct DemoFile {
  std::string name;   ///< "sherds.csv"
  std::string bytes;  ///< UTF-8
};

/// The site as the files that an excavator would send (contexts, relations, phases, fabrics, forms, dates, sherds,
/// rims, joins, pieces, sections, bands, drawings, repositories, loans, selections, bibliography, texts: canonical
/// columns, CSV), with the true dates, the planted mistakes and a README.txt. A file is to be imported in the order
/// given.
std::vector<DemoFile> write(const DemoSite& site);

}  // namespace sherd::demo
