#pragma once

#include <string>
#include <vector>

#include "desk/dates/dated_record.h"

namespace sherd::desk {

/// What a reader of a context's date must know, in sentences: residual, intrusive, carried, one vessel only ...
std::vector<std::string> flags_of(const DatedContext& context);

/// "the relations run in a loop: 101 later than 102 later than 101"
std::string loop_sentence(const stratigraphy::Loop& loop);

/// One sherd of one vessel alone sets the terminus, a hundred years or more after everything else: the year that the
/// rest would give.
std::optional<Year> terminus_without_lone_sherd(const DatedContext& context);

}  // namespace sherd::desk
