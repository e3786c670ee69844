#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "methods/stratigraphy/graph.h"
#include "methods/stratigraphy/result.h"
#include "model/record.h"

namespace sherd::stratigraphy {

/// For each unit what remains of Graph::below when everything that follows from other relations is left out: the
/// transitive reduction, which is unique. Units in loops have nothing below them and lie below nothing.
std::vector<std::vector<Graph::Edge>> reduced_below(const Graph& graph);

/// The reduction of the order (law of succession: E. C. Harris 1979, Principles of Archaeological Stratigraphy, as
/// quoted elsewhere), what follows from it and what is doubtful in it. Work: relations x contexts / 64; memory: half a
/// kilobyte a context.
Reduction reduce(const Graph& graph);

/// Relations that cannot stand as they are, in the order of the relations: a context above itself, contexts that are
/// not in the list, contexts that are the same and yet ordered, or the same and apart, and pairs that
/// are ordered both ways.
std::vector<RelationTrouble> relation_troubles(std::span<const std::string> contexts,
                                               std::span<const Relation> relations);

}  // namespace sherd::stratigraphy
