#pragma once

#include <chrono>
#include <string>

namespace sherd {

/// "about 40 s left", "about 3 min left": what remains of work of which `fraction` took so long, if it goes on as it
/// went. "" in the first three seconds, before a fiftieth is done, and for the last two seconds.
std::string time_left(double fraction, std::chrono::duration<double> taken);

}  // namespace sherd
