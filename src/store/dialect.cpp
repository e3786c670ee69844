#include "store/dialect.h"

#include <soci/soci.h>

namespace sherd::store {

bool roll_back(Dialect& dialect) {
  const auto done = guarded(dialect, [&]() -> Result<void> {
    dialect.sql() << "rollback";
    return {};
  });
  return done.has_value();
}

}  // namespace sherd::store
