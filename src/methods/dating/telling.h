#pragma once

#include <vector>

#include "methods/dating/density.h"
#include "methods/dating/result_object.h"
#include "methods/dating/when_evidence.h"

namespace sherd::dating {

/// The further observations that would tell most, best first; those that tell nothing are left out.
///
///     bits(key) = H(now) - sum over answers of share(answer) H(then), at least 0
///
/// with H the entropy of the density over years. The answers of a key are the values that rows name which hold but for
/// that key; a value that leaves no year within limits and spans is no answer. Their shares are the numbers of these
/// rows; the rows that date the piece now, without naming the key, stand for "none of these", after which all is as
/// now. Fabric and ware are asked for only where neither was seen, the region never. Where the piece's ware is known,
/// shipped rows that name no ware count for marks and legends, and for those keys besides, other than form, that are
/// known to matter to wares of its family.
std::vector<Telling> most_telling(const std::vector<Match>& matches, const Gathered& gathered,
                                  const WhenQuestion& question, Window window);

}  // namespace sherd::dating
