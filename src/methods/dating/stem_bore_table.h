#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

namespace sherd::dating {

constexpr std::int64_t kLeastBore = 4;
constexpr std::size_t kBores = 6;  ///< 4 to 9 64ths of an inch

/// A period and the part of its stems with each bore, 4/64 inch first.
struct BoreRow {
  std::int64_t from, to;
  std::array<double, kBores> percent;
  std::string_view known;
};

/// J. C. Harrington's periods of 1954. Where `known` speaks of one percentage alone, what is left of the hundred is
/// shared equally by the neighbouring bores: that is ours. Sources: docs/methods/stem-bore.md.
constexpr std::array<BoreRow, 6> kBoreTable{{
    {1590, 1620, {0, 0, 0, 0, 20, 80}, "from memory"},
    {1620, 1650, {0, 0, 0, 20, 59, 21}, "8/64: read; the others from memory"},
    {1650, 1680, {0, 0, 18, 57, 25, 0}, "read"},
    {1680, 1710, {0, 14, 72, 14, 0, 0}, "6/64: read; the others shared out"},
    {1710, 1750, {14, 72, 14, 0, 0, 0}, "5/64: from memory; the others shared out"},
    {1750, 1800, {74, 26, 0, 0, 0, 0}, "4/64: from memory; the other shared out"},
}};

}  // namespace sherd::dating
