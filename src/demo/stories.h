#pragma once

#include <map>
#include <string>
#include <vector>

#include "demo/lines.h"
#include "demo/site.h"

/// The vessels that the site is told by, and two mistakes that are lines of their own.
namespace sherd::demo {

/// A context's drafts by its number.
using DraftsOf = std::map<std::string, std::vector<Draft>>;

/// A jug broken in the fire, its sherds in three contexts; a mended jug two centuries old; three plates on one line;
/// what the two areas have to tell. Adds to drafts, vessels and stories.
void tell_stories(DemoSite& site, DraftsOf& drafts);

/// Lines from the sieve, a sample's crumbs counted as sherds, and a printed chip that a mole took down. Adds to drafts
/// and vessels.
void add_odd_lines(DemoSite& site, DraftsOf& drafts);

/// Joins between the contexts that share a vessel. Needs numbered lines.
void join_across_contexts(DemoSite& site);

}  // namespace sherd::demo
