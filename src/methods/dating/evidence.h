#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/dated_row.h"

namespace sherd::dating {

/// What may be seen on a piece, by the columns of the table of evidence.
struct EvidenceKey {
  std::string_view name;
  std::string Evidence::* member;
  bool feature = false;  ///< something on the piece; the others say what it is, and where it was made
  bool number = false;   ///< degrees, or 64ths of an inch: a row may give a range
  bool pattern = false;  ///< may be read in part: ? is one lost character, * is any number of them
  /// Asked for only of a piece whose description has this word; "" of any piece. Common practice, no source.
  std::string_view of_what{};
};

inline constexpr std::array<EvidenceKey, 14> kEvidenceKeys{{
    {"fabric", &Evidence::fabric},
    {"ware", &Evidence::ware},
    {"form", &Evidence::form},
    {"decoration", &Evidence::decoration},
    {"technique", &Evidence::technique, true},
    {"edge", &Evidence::edge, true},
    {"body", &Evidence::body, true},
    {"firing", &Evidence::firing, true},
    {"mark", &Evidence::mark, true, false, true},
    {"legend", &Evidence::legend, true, false, true},
    {"lattice_angle", &Evidence::lattice_angle, true, true, false, "burnished"},
    {"bore", &Evidence::bore, true, true, false, "pipe"},
    {"print_colour", &Evidence::print_colour, true},
    {"region", &Evidence::region},
}};

/// Its place in kEvidenceKeys.
std::optional<std::size_t> evidence_key(std::string_view name);

/// Places in kEvidenceKeys of the keys that the code speaks of by name.
inline constexpr std::size_t kFabricKey = 0, kWareKey = 1, kFormKey = 2, kRegionKey = 13;

/// What was seen; `value` as the rows write it.
struct Observation {
  std::size_t key = 0;  ///< in kEvidenceKeys
  std::string value;
  std::vector<std::string> broader{};  ///< what it is a kind of, nearest first: rows of these hold, too

  friend bool operator==(const Observation&, const Observation&) = default;
};

/// At most so many observations of one piece.
inline constexpr std::size_t kMostObservations = 48;

/// "ware=creamware"
std::string text_of(const Observation& observation);
/// "ware=creamware, edge=feather": the keys that a row names.
std::string keys_text(const Evidence& row);

/// Numbers between two ends; "80-100" has both, "<80" and ">100" leave the end out, "7" and "7/64" are one number.
struct NumberSpan {
  std::optional<double> low, high;
  bool low_excluded = false, high_excluded = false;

  bool holds(const NumberSpan& other) const;  ///< all of `other` lies within
};
std::optional<NumberSpan> number_span(std::string_view cell);

bool is_pattern(std::string_view value);
/// Letters' case, spaces and points aside: "W?DGW*" fits "Wedgwood".
bool fits_pattern(std::string_view pattern, std::string_view text);

/// True where a row that says `cell` holds for what was seen.
bool cell_holds(const EvidenceKey& key, std::string_view cell, std::string_view seen);

/// A row beside what was seen.
struct Match {
  const DatedRow* row = nullptr;
  std::uint64_t seen = 0;     ///< bit i: observation i bears the row out
  std::size_t steps = 0;      ///< from what was seen to what the row names, over kinds of kinds
  std::uint32_t missing = 0;  ///< bit k: the row asks for key k, of which nothing was seen
  bool contradicted = false;  ///< it asks for something else than was seen

  /// Everything that it asks for was seen, but perhaps for the region.
  bool held() const { return !contradicted && (missing & ~(1U << kRegionKey)) == 0 && seen != 0; }
  bool regional() const { return missing != 0; }  ///< of a held row: it holds for a region, and none was given
};
/// One a row, in the order of the rows; retired rows are left out.
std::vector<Match> match_rows(const std::vector<DatedRow>& rows, const std::vector<Observation>& observations);

inline Nature nature_of(const Evidence& row) { return row.nature.value_or(Nature::span); }
inline DateBasis basis_of(const Evidence& row) { return row.basis.value_or(DateBasis::made); }
inline bool dated(const Evidence& row) { return row.earliest || row.latest; }

/// What one set of observations says: the most specific row, or several that are equally specific.
struct Piece {
  std::vector<const DatedRow*> rows;
  std::uint64_t seen = 0;
  Nature nature = Nature::span;  ///< of all its rows; span where some are limits and some are spans
  /// Where an observation can be read in several ways: each with its weight. `rows` is empty then.
  struct Reading {
    double weight = 0;
    std::vector<Piece> pieces;  ///< none: nothing is known of its years
  };
  std::vector<Reading> readings;
};

/// The rows that count, out of held and dated ones of one basis.
///
/// A row gives way to one that rests on all its observations and more, or on the same of a narrower kind, of the same
/// nature, or where it is of nature `usual` and the other a span. Rows of one nature with the same features (marks,
/// edges, techniques ...; or none) that share an observation other than the region compete: most keys seen first, then
/// one with decoration, then form, then region, then one that does not hold for an unasked region only, then one that
/// names what was seen itself. Rows that rest on different observations of the same key (two decorations) do not
/// compete. What is left with the same observations and rank is one piece, limits and spans together, what is usual
/// apart; pieces rest on different observations and go together.
std::vector<Piece> select_pieces(const std::vector<Match>& held, const std::vector<Observation>& observations);

}  // namespace sherd::dating
