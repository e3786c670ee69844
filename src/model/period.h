#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "model/words.h"
#include "model/year.h"

namespace sherd {

/// What the name of a stretch of time stands for. The words are stored and exchanged: do not change them.
enum class PeriodKind { period, reign, house };

template <>
struct Words<PeriodKind> {
  static constexpr std::array<std::string_view, 3> kNames{"period", "reign", "house"};
};

/// The years of a period, a reign or a ruling house by one authority. Authorities differ, so that a name may stand
/// under several of them.
struct PeriodRow {
  std::string authority;
  PeriodKind kind = PeriodKind::period;
  std::string name;
  std::vector<std::string> synonyms;
  std::string abbreviation;
  std::optional<Year> earliest, latest;  ///< an end that is not there is open
  std::string source;
  Known known = Known::memory;
  std::string notes;
};

struct PeriodTable {
  std::vector<PeriodRow> rows;
};

}  // namespace sherd
