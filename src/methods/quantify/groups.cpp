#include "methods/quantify/groups.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <numeric>
#include <unordered_map>

#include "methods/quantify/natural_order.h"

namespace sherd::quantify {

namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();
/// Pairs of group and value up to this many are numbered by a table, more by hashing.
constexpr std::uint64_t kDense = 1U << 22U;

struct Coded {
  std::vector<std::uint32_t> own;  ///< codes of an integer column; a text column has its own
  std::uint64_t distinct = 0;
};

Coded code_integers(const Column& column, std::span<const std::uint32_t> lines) {
  Coded out;
  out.own.resize(column.size());
  std::unordered_map<std::int64_t, std::uint32_t> codes;
  for (const std::uint32_t line : lines) {
    out.own[line] = codes.try_emplace(column.integer(line), static_cast<std::uint32_t>(codes.size())).first->second;
  }
  out.distinct = codes.size();
  return out;
}

/// Splits the groups in `of` by one more column; returns how many there are then.
std::uint64_t refine(const Column& column, std::span<const std::uint32_t> lines, std::uint64_t groups,
                     std::vector<std::uint32_t>& of) {
  const bool text = is_text(column.type());
  const Coded coded = text ? Coded{} : code_integers(column, lines);
  const std::vector<std::uint32_t>& codes = text ? column.codes() : coded.own;
  const std::uint64_t distinct = text ? column.words().size() : coded.distinct;
  std::uint32_t next = 0;
  if (groups * distinct <= kDense) {
    std::vector<std::uint32_t> number(groups * distinct, kNone);
    for (std::size_t k = 0; k < lines.size(); ++k) {
      std::uint32_t& slot = number[of[k] * distinct + codes[lines[k]]];
      if (slot == kNone) slot = next++;
      of[k] = slot;
    }
  } else {
    std::unordered_map<std::uint64_t, std::uint32_t> number;
    for (std::size_t k = 0; k < lines.size(); ++k) {
      const auto [at, fresh] = number.try_emplace(of[k] * distinct + codes[lines[k]], next);
      if (fresh) ++next;
      of[k] = at->second;
    }
  }
  return next;
}

/// A number a row of a column that stands for its place in the order; the greatest is blank.
class Places {
 public:
  explicit Places(const Column& column) : column_(column) {
    if (!is_text(column.type())) return;
    std::vector<std::uint32_t> order(column.words().size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
      return natural_order(column.words()[a], column.words()[b]) < 0;
    });
    of_word_.resize(order.size());
    for (std::size_t place = 0; place < order.size(); ++place)
      of_word_[order[place]] = static_cast<std::int64_t>(place);
  }

  std::int64_t of(std::uint32_t line) const {
    if (is_text(column_.type())) return of_word_[column_.codes()[line]];
    return column_.is_null(line) ? std::numeric_limits<std::int64_t>::max() : column_.integer(line);
  }

 private:
  const Column& column_;
  std::vector<std::int64_t> of_word_;
};

/// Groups in the order in which they are shown, each by one of its lines.
std::vector<std::uint32_t> shown_order(std::span<const Column* const> by, std::span<const std::uint32_t> first) {
  const std::size_t width = by.size();
  std::vector<std::int64_t> places(first.size() * width);
  for (std::size_t c = 0; c < width; ++c) {
    const Places of_column(*by[c]);
    for (std::size_t g = 0; g < first.size(); ++g) places[g * width + c] = of_column.of(first[g]);
  }
  std::vector<std::uint32_t> order(first.size());
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
    const auto row = [&](std::uint32_t g) { return std::span(places).subspan(g * width, width); };
    return std::ranges::lexicographical_compare(row(a), row(b));
  });
  return order;
}

}  // namespace

Groups group_lines(std::span<const Column* const> by, std::span<const std::uint32_t> lines) {
  Groups out;
  out.of.assign(lines.size(), 0);
  if (lines.empty()) return out;
  std::uint64_t groups = 1;
  for (const Column* column : by) groups = refine(*column, lines, groups, out.of);

  out.first.assign(groups, kNone);
  for (std::size_t k = 0; k < lines.size(); ++k) {
    if (out.first[out.of[k]] == kNone) out.first[out.of[k]] = lines[k];
  }
  const std::vector<std::uint32_t> order = shown_order(by, out.first);
  std::vector<std::uint32_t> place(groups);
  std::vector<std::uint32_t> first(groups);
  for (std::uint32_t i = 0; i < groups; ++i) {
    place[order[i]] = i;
    first[i] = out.first[order[i]];
  }
  for (std::uint32_t& group : out.of) group = place[group];
  out.first = std::move(first);
  return out;
}

}  // namespace sherd::quantify
