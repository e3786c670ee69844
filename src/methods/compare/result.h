#pragma once

#include "methods/compare/breakage_result.h"
#include "methods/compare/clusters_result.h"
#include "methods/compare/difference_result.h"
#include "methods/compare/diversity_result.h"
#include "methods/compare/fall_off_result.h"
#include "methods/compare/joins_result.h"
#include "methods/compare/key_groups_result.h"
#include "methods/compare/ordering_result.h"
#include "methods/compare/ordination_result.h"
#include "methods/compare/residuality_result.h"
#include "methods/compare/sample_size_result.h"
#include "methods/compare/similarity_result.h"

/// What comparing assemblages gives, a header a method. Numbers that are undefined are null or not-a-number, which JSON
/// writes as null.
