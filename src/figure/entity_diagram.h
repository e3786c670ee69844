#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "figure/page.h"
#include "layout/layout.h"

namespace sherd::figure {

struct EntityColumn {
  std::string name;
  bool key = false;    ///< part of what tells rows apart
  std::string refers;  ///< the table whose key it holds; "" for none
};

struct EntityTable {
  std::string name;
  std::string rows;                   ///< how many, as it is printed: "1,509 rows"
  std::vector<EntityColumn> columns;  ///< keys and references; the others are counted
  std::size_t others = 0;
};

/// Tables with their keys, and which of them names rows of which.
struct EntityFigure {
  About about;
  std::vector<EntityTable> tables;
};

/// What a layout is asked to place: a table above those that it refers to. Tables without any reference are not in it.
layout::Drawing drawing_of(const EntityFigure& figure);

/// SVG at its printed size. A line runs from a table to that which it refers to, with an arrowhead there. `placed` is
/// the layout's answer to `drawing_of` of the same figure.
std::string entity_diagram(const EntityFigure& figure, const layout::Placed& placed);

}  // namespace sherd::figure
