#pragma once

#include <cstddef>

#include "base/result.h"
#include "methods/chemistry/components_result.h"
#include "methods/chemistry/prepare.h"

namespace sherd::chemistry {

/// Each column less its mean, and divided by its standard deviation (n - 1) where `standardise` says so.
struct Centred {
  statistics::Matrix values;
  std::vector<double> means, sds;
};
Centred centred(const statistics::Matrix& values, bool standardise);

/// What `components` rests on, without names.
struct PrincipalAxes {
  Centred centred;
  std::vector<double> eigenvalues;  ///< all, never below 0
  statistics::Matrix vectors;       ///< variables x shown
  statistics::Matrix scores;        ///< samples x shown
};
PrincipalAxes principal_axes(const statistics::Matrix& values, bool standardise, std::size_t shown);

struct ComponentSettings {
  bool standardise = false;  ///< each variable by its own standard deviation
  std::size_t shown = 10;    ///< components with loadings and scores, at most
};
/// Principal components of the prepared values: docs/methods/components.md. Errors: `constant_variable` (nothing to
/// standardise by), `nothing_varies`, `bad_axes`.
Result<Components> components(const Prepared& samples, const ComponentSettings& settings);

/// The samples by their first components instead of their variables, for methods that cannot take as many variables as
/// there are. Errors: those of `components`; `bad_axes` above the number of components that vary.
Result<Prepared> on_components(const Prepared& samples, const ComponentSettings& settings);

}  // namespace sherd::chemistry
