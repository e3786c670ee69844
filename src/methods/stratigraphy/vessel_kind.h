#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/words.h"
#include "model/year.h"

namespace sherd::stratigraphy {

/// Vessels of one context that share their years: one kind of pottery, a coin, a pipe bowl, a measured age.
struct VesselKind {
  std::string name;
  Year earliest, latest;
  std::optional<Year> full_from, full_to;       ///< of full production; an end that has one has no shoulder
  bool exact_start = false, exact_end = false;  ///< a law, a registration, a coin's year: no shoulder
  DateBasis basis = DateBasis::made;            ///< `arrived` counts as made
  std::optional<double> use_life;               ///< mean years from making to breaking, where not the usual
  std::int64_t vessels = 1;                     ///< 0 adds nothing
  std::int64_t fresh = 0, abraded = 0, heavily_abraded = 0;  ///< of them; of the rest nothing is known
  std::optional<Judgement> judged;                           ///< the specialist's own
  std::string together;          ///< kinds with the same word are one date-group, whatever the rule says
  std::vector<double> breaking;  ///< where given: the chance of each year from `earliest` on, instead of all that
  std::vector<std::string> records;
};

/// What makes two kinds of vessels one in date: all but names, numbers and looks.
struct KindKey {
  std::int64_t earliest, latest;
  std::optional<Year> full_from, full_to;
  bool exact_start, exact_end, deposited;
  std::optional<double> use_life;
  std::optional<Judgement> judged;
  std::string together;
  std::vector<double> breaking;

  friend auto operator<=>(const KindKey&, const KindKey&) = default;
};
KindKey key_of(const VesselKind& kind);

/// Kinds of the same years as one, in the order of their keys; kinds without vessels are left out.
std::vector<VesselKind> pooled(const std::vector<VesselKind>& kinds);

}  // namespace sherd::stratigraphy
