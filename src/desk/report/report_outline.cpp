#include "desk/report/report_outline.h"

#include <algorithm>

#include "base/text.h"

namespace sherd::desk {

namespace {

constexpr SectionPlan kSections[]{
    {"summary", {true, true, true}},      {"introduction", {true, true, true}},
    {"background", {false, true, true}},  {"method", {true, true, true}},
    {"quantities", {true, true, true}},   {"fabrics", {false, false, true}},
    {"forms", {false, false, true}},      {"dates", {true, true, true}},
    {"condition", {false, true, true}},   {"use", {false, false, true}},
    {"comparison", {false, false, true}}, {"chemistry", {false, true, true}},
    {"discussion", {true, true, true}},   {"recommendations", {false, true, false}},
    {"catalogue", {false, false, true}},  {"archive", {true, true, true}},
    {"doubts", {true, true, true}},       {"checks", {true, true, true}},
    {"settings", {true, true, true}},     {"acknowledgements", {true, true, true}},
    {"bibliography", {true, true, true}},
};

constexpr SlotPlan kSlots[]{
    {"author", "author"},
    {"summary", "summary"},
    {"introduction", "introduction"},
    {"aims", "introduction"},
    {"significance", "introduction"},
    {"background", "background"},
    {"recovery", "method"},
    {"sampling", "method"},
    {"selection", "method"},
    {"method", "method"},
    {"quantities", "quantities"},
    {"fabrics", "fabrics"},
    {"sources", "fabrics"},
    {"forms", "forms"},
    {"dates", "dates"},
    {"residuality", "condition"},
    {"condition", "condition"},
    {"use", "use"},
    {"key_groups", "comparison"},
    {"comparison", "comparison"},
    {"chemistry", "chemistry"},
    {"discussion", "discussion"},
    {"potential", "recommendations"},
    {"tasks", "recommendations"},
    {"recommendations", "recommendations"},
    {"catalogue", "catalogue"},
    {"archive", "archive"},
    {"doubts", "doubts"},
    {"acknowledgements", "acknowledgements"},
    {"bibliography", "bibliography"},
};

}  // namespace

std::span<const SectionPlan> section_plans() { return kSections; }
std::span<const SlotPlan> slot_plans() { return kSlots; }

std::string_view section_of(std::string_view slot) {
  const auto* found = std::ranges::find(kSlots, slot, &SlotPlan::slot);
  return found == std::end(kSlots) ? std::string_view() : found->section;
}

std::vector<std::string> slot_names() {
  std::vector<std::string> names;
  for (const SlotPlan& slot : kSlots) names.emplace_back(slot.slot);
  return names;
}

bool is_for(std::string_view reports, std::int64_t type) {
  if (trim(reports).empty()) return true;
  return reports.find(std::to_string(type)) != std::string_view::npos;
}

bool is_public(std::string_view slot) { return slot.starts_with("public"); }

}  // namespace sherd::desk
