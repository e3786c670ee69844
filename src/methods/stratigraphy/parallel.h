#pragma once

#include <atomic>
#include <cstddef>
#include <functional>

namespace sherd::stratigraphy {

/// Does work 0 .. count - 1 on `threads` threads of its own (0: as many as the machine has), while the calling thread
/// asks `go_on` every now and then. When that says no, `stop` becomes true for work that is under way, no other is
/// begun, and the answer is false. What the work writes must not depend on the order in which it is done.
bool in_parallel(std::size_t count, std::size_t threads,
                 const std::function<void(std::size_t, const std::atomic<bool>& stop)>& work,
                 const std::function<bool()>& go_on);

}  // namespace sherd::stratigraphy
