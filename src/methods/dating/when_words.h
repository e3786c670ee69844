#pragma once

#include <optional>
#include <string>

#include "methods/dating/result_object.h"

namespace sherd::dating {

/// The plain statement: "made between 1785 and 1810, most likely 1790-1805". Rests on the years, ranges, reasons and
/// conflicts of the answer.
std::string statement_of(const ObjectDate& date);

}  // namespace sherd::dating
