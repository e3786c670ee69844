#pragma once

#include <optional>
#include <span>
#include <string>

#include "methods/dating/spot.h"
#include "methods/stratigraphy/result.h"
#include "model/record.h"

namespace sherd::stratigraphy {

struct ContextTermini {
  std::string context;
  dating::Termini termini;
  std::optional<Deposit> deposit;
};

/// Carries each terminus post quem up to every later context: effective = the latest of a context's own and those of
/// all contexts earlier than it. Equal years: its own, else the context first in natural order. The rules of
/// stopping: docs/methods/termini.md.
CarriedTermini carry_termini(std::span<const ContextTermini> contexts, std::span<const Relation> relations);

}  // namespace sherd::stratigraphy
