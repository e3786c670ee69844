#pragma once

#include <string>
#include <vector>

namespace sherd::figure {

/// A figure drawn from made-up pottery, to be looked at and compared.
struct Sample {
  std::string name;  ///< of its approved file, without ".svg"
  std::string svg;
};

std::vector<Sample> samples();

}  // namespace sherd::figure
