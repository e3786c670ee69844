#pragma once

// What others may see of this module: the order of the ground, and the dates of contexts.
#include "methods/stratigraphy/result_dates.h"  // IWYU pragma: export
#include "methods/stratigraphy/result_order.h"  // IWYU pragma: export
