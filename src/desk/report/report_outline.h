#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What reports of the three types consist of: CIfA, Toolkit for Specialist Reporting, advisory checklist (read in
/// part), and the reporting part of A Standard for Pottery Studies in Archaeology 2016 (from memory).
namespace sherd::desk {

/// Description, appraisal, full analysis.
constexpr std::int64_t kTypes = 3;

struct SectionPlan {
  std::string_view id;
  std::array<bool, 3> in;  ///< types 1 to 3
};
/// In their order.
std::span<const SectionPlan> section_plans();

/// A place for prose: a section itself, or a part of one with a heading of its own.
struct SlotPlan {
  std::string_view slot, section;
};
std::span<const SlotPlan> slot_plans();
/// The section that a text's `section` leads to; "" where there is none. "author" leads to "author", the head of the
/// report.
std::string_view section_of(std::string_view slot);
std::vector<std::string> slot_names();

/// Whether "2, 3" names the type; blank names all.
bool is_for(std::string_view reports, std::int64_t type);

/// Texts for the pages of the public stand under "public" and what begins with it; no report has them.
bool is_public(std::string_view slot);

}  // namespace sherd::desk
