#pragma once

#include <cstdint>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "desk/recording/kept_lines.h"

/// How long people were at work, by the times of their changes.
namespace sherd::desk {

/// One person's work on one day. Changes that follow each other within a quarter of an hour are one stretch, each with
/// a minute before its first; pauses are cut.
struct WorkDay {
  std::string who, day;  ///< "2026-11-25"
  double hours = 0;
  std::set<std::int64_t> changes;
};

/// Of changes made by hand since `from` (seconds since 1970); what programs read in says nothing of a pace. `who`: of
/// this person alone.
std::vector<WorkDay> work_days(const LinesInShort& lines, const std::string& who, std::int64_t from);

/// Seconds of "2026-11-25T20:07:41Z"; nothing where it is not that.
std::optional<std::int64_t> seconds_of_time(std::string_view at);

}  // namespace sherd::desk
