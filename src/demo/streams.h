#pragma once

#include <cstdint>

namespace sherd::demo {

/// Streams of the generator. Each context has the stream of its place in contexts.csv, so that a change to one leaves
/// the others as they were. Do not change: the demo's bytes follow from them.
constexpr std::uint64_t kDaysStream = 1001;
constexpr std::uint64_t kJoinsStream = 1002;
constexpr std::uint64_t kStoriesStream = 1003;
constexpr std::uint64_t kClayStream = 1004;

}  // namespace sherd::demo
