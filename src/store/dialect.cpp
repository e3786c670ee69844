#include "store/dialect.h"

#include <soci/soci.h>

namespace sherd::store {

void roll_back(Dialect& dialect) {
  static_cast<void>(guarded(dialect, [&]() -> Result<void> {
    dialect.sql() << "rollback";
    return {};
  }));
}

}  // namespace sherd::store
