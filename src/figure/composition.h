#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/page.h"

namespace sherd::figure {

/// What one group is made of.
struct CompositionGroup {
  std::string name;                    ///< "Phase 3: tannery"
  std::vector<double> amounts;         ///< one a category; missing, negative, not a number or beyond 1e100 counts as 0
  std::optional<std::int64_t> n;       ///< how many things the shares rest on
  std::vector<std::string> data_sets;  ///< one a category, or none
};

struct CompositionData {
  About about;
  std::string measure;          ///< "Share of weight"
  std::string n_word;           ///< "sherds"
  std::string rows_word;        ///< "phases"
  std::string categories_word;  ///< "fabrics"
  std::vector<std::string> categories;
  std::vector<CompositionGroup> groups;
};

/// SVG of a stacked bar of shares a group. Categories keep their order and take the fixed order of colours; beyond
/// eight, the eight with the largest sums are shown and the rest is "other", named under the figure.
std::string composition(const CompositionData& data, const Page& page);

/// As `next_row_of_bars`.
std::size_t next_row_of_composition(const CompositionData& data, const Page& page);

}  // namespace sherd::figure
