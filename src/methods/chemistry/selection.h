#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "methods/chemistry/composition.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

/// A table without missing cells, and what had to go for that.
struct Selection {
  Composition table;
  std::vector<std::string> left_out_samples, left_out_parts;
};
/// Errors: those of `prepare` that come before any value is put in.
Result<Selection> select(const Composition& table, const PreparationSettings& settings);

/// "Al2O3, Fe2O3 and 7 more"
std::string listed(const std::vector<std::string>& names);

}  // namespace sherd::chemistry
