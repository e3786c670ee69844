#include <algorithm>
#include <bit>
#include <cstddef>
#include <tuple>

#include "methods/dating/evidence.h"

namespace sherd::dating {

namespace {

/// How specific a row is; the greater wins.
using Rank = std::tuple<int, bool, bool, bool, bool, std::ptrdiff_t>;

Rank rank_of(const Match& match) {
  const Evidence& row = match.row->evidence;
  return {std::popcount(match.seen), !row.decoration.empty(),
          !row.form.empty(),         !row.region.empty() && !match.regional(),
          !match.regional(),         -static_cast<std::ptrdiff_t>(match.steps)};
}

/// Which observations are of which key, of features, of the region.
struct Masks {
  std::array<std::uint64_t, kEvidenceKeys.size()> of_key{};
  std::uint64_t features = 0, region = 0;

  explicit Masks(const std::vector<Observation>& observations) {
    for (std::size_t i = 0; i < observations.size(); ++i) {
      const std::uint64_t bit = std::uint64_t{1} << i;
      of_key[observations[i].key] |= bit;
      if (kEvidenceKeys[observations[i].key].feature) features |= bit;
    }
    region = of_key[kRegionKey];
  }

  bool compete(const Match& a, const Match& b) const {
    if ((a.seen & features) != (b.seen & features) || (a.seen & b.seen & ~region) == 0) return false;
    return std::none_of(of_key.begin(), of_key.end(), [&](std::uint64_t key) {
      return (a.seen & key) != 0 && (b.seen & key) != 0 && (a.seen & key) != (b.seen & key);
    });
  }
};

/// The more specific row says all that the general one does, or the same of a narrower kind.
bool replaces(const Match& special, const Match& general) {
  if ((special.seen & general.seen) != general.seen) return false;
  if (special.seen == general.seen && special.steps >= general.steps) return false;
  const Nature by = nature_of(special.row->evidence), of = nature_of(general.row->evidence);
  return by == of || (of == Nature::usual && by == Nature::span);
}

bool same_piece(const Piece& piece, const Rank& rank, const Match& match, const Rank& match_rank) {
  const bool usual = nature_of(match.row->evidence) == Nature::usual;
  return piece.seen == match.seen && (piece.nature == Nature::usual) == usual && rank == match_rank;
}

}  // namespace

std::vector<Piece> select_pieces(const std::vector<Match>& held, const std::vector<Observation>& observations) {
  const Masks masks(observations);
  std::vector<std::pair<Rank, const Match*>> by_rank;
  for (const Match& match : held) {
    const bool replaced =
        std::any_of(held.begin(), held.end(), [&](const Match& other) { return replaces(other, match); });
    if (!replaced) by_rank.emplace_back(rank_of(match), &match);
  }
  std::stable_sort(by_rank.begin(), by_rank.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<std::pair<Rank, const Match*>> kept;
  std::vector<Piece> pieces;
  std::vector<Rank> ranks;
  for (const auto& ranked : by_rank) {
    const Rank& rank = ranked.first;
    const Match* match = ranked.second;
    const Nature nature = nature_of(match->row->evidence);
    const bool beaten = std::any_of(kept.begin(), kept.end(), [&](const auto& other) {
      return other.first > rank && nature_of(other.second->row->evidence) == nature &&
             masks.compete(*other.second, *match);
    });
    if (beaten) continue;
    kept.emplace_back(rank, match);
    std::size_t i = 0;
    while (i < pieces.size() && !same_piece(pieces[i], ranks[i], *match, rank)) ++i;
    if (i == pieces.size()) {
      pieces.push_back({.rows = {}, .seen = match->seen, .nature = nature, .readings = {}});
      ranks.push_back(rank);
    }
    if (pieces[i].nature != nature) pieces[i].nature = Nature::span;
    pieces[i].rows.push_back(match->row);
  }
  return pieces;
}

}  // namespace sherd::dating
