#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "desk/dates/dated_record.h"
#include "desk/dates/kept_date.h"
#include "figure/stratigraphy_diagram.h"
#include "methods/stratigraphy/result.h"

namespace sherd::desk {

struct DiagramChoice {
  bool with_redundant = false;
  std::set<std::string, std::less<>> folded = {};  ///< phases drawn as one box each
};

/// The diagram of a record: its reduced order, its phases, and for each context the dates that there are. Contexts that
/// are the same stand in one box.
figure::StratigraphyFigure stratigraphy_figure(const Record& record, const DatedRecord& dated,
                                               const stratigraphy::Reduction& reduction,
                                               const std::vector<KeptDate>& in_sequence, const DiagramChoice& choice);

}  // namespace sherd::desk
