#pragma once

#include <optional>
#include <string>
#include <vector>

#include "model/words.h"
#include "model/year.h"

namespace sherd {

/// A measure of former times as the methods and figures use it.
struct KnownMeasure {
  std::string measure, region;
  double holds_ml = 0;
  std::optional<Year> earliest, latest;
  std::string reference;
  Known known = Known::read;
  std::string notes;
};

}  // namespace sherd
