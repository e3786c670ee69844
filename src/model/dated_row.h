#pragma once

#include <cstdint>
#include <optional>

#include "model/record.h"

namespace sherd {

/// A row that dates what is seen on a piece, of the shipped table or of a store's own. Rows of the kind `dates`, and
/// the ranges that a store's fabrics and forms carry, take this shape, too.
struct DatedRow {
  Evidence evidence;
  bool of_store = false;
  std::optional<std::int64_t> change;  ///< of the store: the change that the row as it stands comes from
};

}  // namespace sherd
