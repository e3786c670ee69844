#pragma once

#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/membership_result.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

struct MembershipSettings {
  double level = 0.01;  ///< a probability below it is no membership; common practice, no source
};

/// Every sample against every group, members left out of their own: docs/methods/membership.md. Groups that are too
/// small or singular are in `refused`. Errors: `no_groups`, `groups_too_small` (none can be used), `bad_level`,
/// `stopped`.
Result<Membership> membership(const Prepared& samples, const MembershipSettings& settings, Progress& progress);

/// Why a group cannot be used, and the way out; nothing where it can.
std::optional<RefusedGroup> refusal(const Prepared& samples, const GroupRows& group);

/// Hotelling's test of two groups with pooled covariance; nothing where it is singular or there are too few samples.
std::optional<GroupPair> compare_groups(const statistics::Matrix& values, const GroupRows& a, const GroupRows& b);

}  // namespace sherd::chemistry
