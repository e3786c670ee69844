#pragma once

#include <vector>

#include "methods/dating/result_object.h"
#include "methods/dating/when.h"
#include "methods/dating/when_evidence.h"

namespace sherd::dating {

/// The ends of the answer that would be others, or open, without the rows from memory, and which of these set them;
/// then the likeliest years, where they would be others.
std::vector<MemoryEnd> ends_from_memory(const std::vector<Match>& matches, const Gathered& gathered,
                                        const WhenQuestion& question, Window window);

/// The wares that were not seen but might be: a row that names the ware is borne out by something else that was seen
/// than the region, and the observations, with this ware in place of fabric and ware, leave a year. Those with the most
/// observations borne out first.
std::vector<WhenAlternative> alternatives_to(const std::vector<DatedRow>& rows, const WhenQuestion& question);

}  // namespace sherd::dating
