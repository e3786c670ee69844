#pragma once

#include "desk/frame/forwarding_store.h"

namespace sherd::desk {

/// Opening a store again and again reaches the same store in memory, which outlives each opening.
class OpenedStore final : public ForwardingStore {
 public:
  explicit OpenedStore(Store& inner) : ForwardingStore(inner) {}
};

}  // namespace sherd::desk
