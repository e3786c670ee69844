#include "notation/diamond_decode.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "notation/mark_reading.h"

namespace sherd::notation {

namespace {

bool takes_letter(DiamondPart part) { return part == DiamondPart::year || part == DiamondPart::month; }

/// The letters of the year or the month, "A, B, C".
template <class Rows>
std::string letters_of(const Rows& rows) {
  std::string letters;
  for (const auto& row : rows) letters += row.letter;
  std::ranges::sort(letters);
  letters.erase(std::ranges::unique(letters).begin(), letters.end());
  std::string out;
  for (const char letter : letters) out += (out.empty() ? "" : ", ") + std::string(1, letter);
  return out;
}

class Decoder {
 public:
  Decoder(const DiamondTables& tables, const DiamondSeries& series) : tables_(tables), series_(series) {
    std::ranges::copy_if(tables.years, std::back_inserter(years_),
                         [&](const DiamondYear& year) { return year.series == series.series; });
  }

  /// Every day that these signs may stand for; one with its trouble where there is none.
  std::vector<Decoded> days(const Placing& placing) const {
    std::vector<Decoded> found = from_exceptions(placing);
    Decoded plain = from_tables(placing);
    if (plain.trouble.empty() || found.empty()) found.insert(found.begin(), std::move(plain));
    return found;
  }

 private:
  std::vector<Decoded> from_exceptions(const Placing& placing) const {
    std::vector<Decoded> out;
    for (const DiamondException& one : tables_.exceptions) {
      if (one.series != series_.series || !placing.year || placing.year->letter != one.year_letter) continue;
      if (placing.month ? placing.month->letter != one.month_letter : in_years(one.year_letter) != nullptr) continue;
      if (placing.day && (placing.day->number < one.from.day || placing.day->number > one.to.day)) continue;
      Decoded day;
      day.day = {one.from.year, one.from.month, placing.day ? placing.day->number : 0};
      day.known = one.cited.known;
      day.source = one.cited.source;
      day.note = one.reads;
      out.push_back(std::move(day));
    }
    return out;
  }

  const DiamondYear* in_years(char letter) const {
    const auto found = std::ranges::find(years_, letter, &DiamondYear::letter);
    return found == years_.end() ? nullptr : &*found;
  }

  static Decoded trouble(std::size_t at, std::string why) {
    Decoded out;
    out.trouble = std::move(why);
    out.at = at;
    return out;
  }

  Decoded from_tables(const Placing& placing) const {
    Decoded out;
    if (placing.year) {
      const DiamondYear* year = in_years(placing.year->letter);
      if (year == nullptr) return no_year(*placing.year);
      out.day.year = year->year;
      out.known = year->cited.known;
      out.source = year->cited.source;
    }
    if (placing.month) {
      const auto month = std::ranges::find(tables_.months, placing.month->letter, &DiamondMonth::letter);
      if (month == tables_.months.end())
        return trouble(placing.month->at, fmt::format("{} is no letter of a month; they are {}", placing.month->letter,
                                                      letters_of(tables_.months)));
      out.day.month = month->month;
      if (out.source.empty()) out.source = month->cited.source;
    }
    if (out.source.empty()) out.source = series_.cited.source;
    if (!placing.day) return out;
    out.day.day = placing.day->number;
    const int year = out.day.year > 0 ? out.day.year : 1848;  // a leap year: any day may be meant
    const int last = out.day.month > 0 ? days_of_month(year, out.day.month) : 31;
    if (out.day.day > last)
      return trouble(placing.day->at,
                     out.day.month > 0
                         ? fmt::format("{} had no day {}", day_text({out.day.year, out.day.month, 0}), out.day.day)
                         : fmt::format("no month has a day {}", out.day.day));
    return out;
  }

  Decoded no_year(const DiamondSign& sign) const {
    for (const DiamondException& one : tables_.exceptions) {
      if (one.series == series_.series && one.year_letter == sign.letter)
        return trouble(sign.at, fmt::format("{}, and for no other day of {}", one.reads, series_text(series_)));
    }
    return trouble(sign.at, fmt::format("{} is no letter of a year in {}; they are {}", sign.letter,
                                        series_text(series_), letters_of(years_)));
  }

  const DiamondTables& tables_;
  const DiamondSeries& series_;
  std::vector<DiamondYear> years_;
};

}  // namespace

std::string series_text(const DiamondSeries& series) {
  return fmt::format("series {} ({}-{})", series.series, series.first_year, series.last_year % 100);
}

std::expected<std::vector<Placing>, DiamondTrouble> placings(const WrittenDiamond& written,
                                                             const DiamondSeries& series) {
  if (written.series != 0 && written.series != series.series)
    return std::unexpected(DiamondTrouble{0, fmt::format("it was said to be of series {}", written.series)});
  Placing fixed;
  std::vector<DiamondPart> free_letters{DiamondPart::year, DiamondPart::month};
  std::vector<DiamondPart> free_numbers{DiamondPart::day, DiamondPart::parcel};
  for (std::size_t c = 0; c < 4; ++c) {
    const auto& sign = written.corners[c];
    if (!sign) continue;
    const DiamondPart part = series.corners[c];
    if (sign->is_letter() != takes_letter(part))
      return std::unexpected(DiamondTrouble{
          sign->at,
          fmt::format("the {} corner has the {} {}, and there {} has the {}", kCornerNames[c],
                      sign->is_letter() ? "letter" : "number", sign->text(), series_text(series), word(part))});
    fixed.of(part) = sign;
    std::erase(free_letters, part);
    std::erase(free_numbers, part);
  }
  std::vector<Placing> ways{fixed};
  for (const DiamondSign& sign : written.unplaced) {
    std::vector<Placing> next;
    for (Placing way : ways) {
      for (const DiamondPart part : sign.is_letter() ? free_letters : free_numbers) {
        if (way.of(part)) continue;
        Placing more = way;
        more.of(part) = sign;
        next.push_back(more);
      }
    }
    ways = std::move(next);
  }
  return ways;
}

std::vector<Decoded> decode(const Placing& placing, const DiamondSeries& series, const DiamondTables& tables) {
  return Decoder(tables, series).days(placing);
}

}  // namespace sherd::notation
