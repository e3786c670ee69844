#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "figure/page.h"
#include "layout/layout.h"
#include "model/year.h"

namespace sherd::figure {

/// A box: a context, or several that are the same.
struct DiagramContext {
  std::string label;                 ///< "102", "102 = 205"
  std::string type;                  ///< as recorded: "layer", "fill", "cut", "structure" ...
  std::string area;                  ///< its column where its phase names none
  std::optional<std::size_t> phase;  ///< of `phases`
  YearRange spot;                    ///< by its own pottery; hatched in the upper lane
  bool single = false;               ///< the spot range rests on one vessel: outlined with dashes
  std::optional<Year> terminus;      ///< a tick in the upper lane
  bool terminus_carried = false;     ///< from an earlier context
  YearRange sequence;                ///< in sequence, where it is dated so; solid in the lower lane
  YearRange own;                     ///< the specialist's own date; told, not drawn
  std::string note;                  ///< told with it: "mixed deposit"
  bool in_loop = false;
  std::string data_set;  ///< "context=102"
};

struct DiagramPhase {
  std::string phase, title;  ///< "A3", "Tannery"
  std::string area;          ///< "" where the phase is the whole site's
  std::string data_set;
};

enum class RelationLook {
  order,
  redundant,  ///< follows from the others: drawn only where `with_redundant`, thin
  loop,       ///< in red, with an arrowhead towards the earlier
};

struct DiagramRelation {
  std::size_t later = 0, earlier = 0;  ///< of `contexts`; from a context to itself is left out
  std::string words;                   ///< "102 cuts 101"
  RelationLook look = RelationLook::order;
  std::string data_set;
};

/// Contemporary, or same as but looked at apart: no order.
struct DiagramLink {
  std::size_t a = 0, b = 0;
  std::string words;  ///< "102 contemporary 205"
  std::string data_set;
};

struct StratigraphyFigure {
  About about;
  std::vector<DiagramContext> contexts;
  std::vector<DiagramPhase> phases;  ///< the latest first, at least within each area
  std::vector<DiagramRelation> relations;
  std::vector<DiagramLink> links;
  std::vector<std::string> loops;  ///< a sentence each, written under the diagram in red
  bool with_redundant = false;
};

/// What a layout is asked to place. Keep the answer under its `layout::layout_key`: words, dates and looks are not in
/// it.
layout::Drawing drawing_of(const StratigraphyFigure& figure);

/// SVG of the diagram at its printed size: as large as its boxes need, at least a single column wide. `placed` is the
/// layout's answer to `drawing_of` of the same figure. Every phase, link, relation and context is a mark with its title
/// and its data set; the last path in the mark of a relation that is not red is its whole line, without a stroke, since
/// a stretch that several relations share is drawn with the first of them.
std::string stratigraphy_diagram(const StratigraphyFigure& figure, const layout::Placed& placed);

}  // namespace sherd::figure
