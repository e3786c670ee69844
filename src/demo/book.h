#pragma once

#include <vector>

#include "demo/lines.h"
#include "demo/site.h"

/// Drafts become numbered lines in bags and boxes, recorded over some weeks and mostly checked.
namespace sherd::demo {

constexpr std::int64_t kFirstRecord = 10001;

/// Appends lines, rims and joins to the site, from the contexts' drafts in their order.
void book(DemoSite& site, std::vector<std::vector<Draft>>& drafts);

/// Day `n` of recording, weekends left out, counted from the Monday that the seed chooses: "2026-03-02".
std::string recording_day(std::uint64_t seed, std::int64_t n);

}  // namespace sherd::demo
