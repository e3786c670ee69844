#pragma once

#include <vector>

#include "methods/dating/density.h"
#include "methods/dating/when.h"

/// What `when` gathers before it answers.
namespace sherd::dating {

struct Gathered {
  std::vector<Match> held;     ///< of making, dated; without those of observations that can be read in several ways
  std::vector<Piece> several;  ///< those
  std::vector<Piece> pieces;   ///< all that counts
  std::vector<Match> of_use;   ///< of arrival or deposition, dated; the most specific
  std::vector<Match> undated;  ///< rows without years, for their words
  std::vector<WhenCandidate> candidates;
  std::uint64_t spoken = 0;  ///< bit i: some row speaks of observation i
};

/// With rows from memory, or without them.
Gathered gather(const std::vector<Match>& matches, const WhenQuestion& question, bool memory);

std::vector<const Piece*> pointers_to(const std::vector<Piece>& pieces);

/// The years that rows reach over, shoulders included; years 1 to 2000 where no row is dated.
Window window_of(const std::vector<DatedRow>& rows, std::int64_t shoulder);

/// Years by which the years considered reach beyond all ends of the evidence, where no window was asked for.
inline constexpr std::int64_t kOpenYears = 100;
/// From kOpenYears and the shoulder before the first end of the evidence to as many after the last.
Window window_around(const std::vector<Piece>& pieces, std::int64_t shoulder, Window otherwise);

/// The words by which a piece is known: "ware=creamware, edge=feather".
std::string words_of(const Piece& piece, const std::vector<Observation>& observations);

}  // namespace sherd::dating
