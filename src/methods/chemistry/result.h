#pragma once

/// What the methods that look for structure among compositions give.
#include "methods/chemistry/components_result.h"
#include "methods/chemistry/dilution_result.h"
#include "methods/chemistry/discriminant_result.h"
#include "methods/chemistry/membership_result.h"
#include "methods/chemistry/origin_result.h"
#include "methods/chemistry/outliers_result.h"
#include "methods/chemistry/preparation_result.h"
#include "methods/chemistry/variation_result.h"
