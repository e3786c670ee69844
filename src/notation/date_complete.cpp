#include "notation/date_complete.h"

#include <fmt/format.h>

#include "base/result.h"

namespace sherd::notation {

namespace {

using Core = WrittenBound::Core;

constexpr std::int64_t kLastCentury = 21;

bool is_bc(const WrittenBound& bound) { return bound.era == Era::bc; }

void share_century(WrittenBound& left, WrittenBound& right) {
  // early to mid 13th
  if (left.core == Core::none && (right.core == Core::century || right.core == Core::millennium)) {
    left.core = right.core;
    left.number = right.number;
  }
  // 1st-2nd quarter C2
  const bool counted = right.part && right.part->kind != WrittenPart::Kind::thirds;
  if (left.ordinal && !left.named && !left.part && !left.era && counted && left.number <= right.part->first) {
    left.part = WrittenPart{right.part->kind, static_cast<int>(left.number), static_cast<int>(left.number)};
    left.number = right.number;
  }
  // C2-3, L13-14; 2-3rd c.
  const auto may_be = [](const WrittenBound& bound) {
    return bound.core == Core::year && bound.number >= 1 && bound.number <= kLastCentury && !bound.circa;
  };
  const bool century = left.core == Core::century;
  if (century && may_be(right) && !right.era_before) right.core = Core::century;
  if (right.core == Core::century && right.ordinal && may_be(left) && !left.era_before) left.core = Core::century;
  // 4th-3rd millennium
  if (right.core == Core::millennium && left.core == Core::century && left.ordinal && !left.named) {
    left.core = Core::millennium;
  }
}

void share_era(WrittenBound& left, WrittenBound& right, std::vector<std::string>& warnings) {
  if (right.core == Core::period) return;
  if (left.core != Core::period && !left.era && is_bc(right)) left.era = Era::bc;
  if (!is_bc(left) || right.era) return;
  // BC 100-40 counts down, so that the era stands for both; 100 BC-40 steps over into AD.
  if (left.era_before && right.number < left.number) {
    right.era = Era::bc;
    return;
  }
  warnings.emplace_back("the range was read as running from BC into AD; write the era at both ends to be sure");
}

/// 1120-35 is 1120-1135, 1530s-40s is 1530s-1540s.
void abbreviated(const WrittenBound& left, WrittenBound& end, std::vector<std::string>& because) {
  const bool alike = left.core == end.core && (left.core == Core::year || left.core == Core::decade);
  if (!alike || is_bc(left) || is_bc(end) || (left.era && end.era) || end.era_before) return;
  if (end.circa || end.digits >= left.digits || end.number >= left.number) return;
  std::int64_t power = 1;
  for (int i = 0; i < end.digits; ++i) power *= 10;
  const std::int64_t whole = left.number / power * power + end.number;
  if (whole < left.number) return;
  const std::string_view s = left.core == Core::decade ? "s" : "";
  because.push_back(
      fmt::format("{0}{4}-{1:0{2}}{4} is short for {0}{4}-{3}{4}", left.number, end.number, end.digits, whole, s));
  end.number = whole;
  end.digits = left.digits;
}

}  // namespace

std::expected<void, DateTrouble> complete_range(WrittenDate& date, std::vector<std::string>& because,
                                                std::vector<std::string>& warnings) {
  WrittenBound& right = *date.right;
  if (right.core == Core::none) {
    return std::unexpected(DateTrouble{right.at, "the end of the range has no year and no century"});
  }
  share_century(date.left, right);
  share_era(date.left, right, warnings);
  if (date.may_abbreviate) abbreviated(date.left, right, because);
  return {};
}

}  // namespace sherd::notation
