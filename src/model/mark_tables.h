#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "model/words.h"

/// What is known of datable marks: the types of the reference tables. The values are in data/reference.
namespace sherd {

/// A day of the calendar, month and day 1-based; a day that was not read is 0.
struct CalendarDay {
  int year = 0;
  int month = 0;
  int day = 0;
  friend auto operator<=>(const CalendarDay&, const CalendarDay&) = default;
};

/// Where a value comes from and how it was come by.
struct Citation {
  std::string source;
  Known known = Known::read;
  std::string note;
};

/// What a corner of a registration diamond stands for.
enum class DiamondPart { year, month, day, parcel };

template <>
struct Words<DiamondPart> {
  static constexpr std::array<std::string_view, 4> kNames{"year", "month", "day", "parcel"};
};

struct DiamondSeries {
  int series = 0;  ///< 1 or 2
  int first_year = 0;
  int last_year = 0;
  std::array<DiamondPart, 4> corners{};  ///< top, left, right, bottom
  Citation cited;
};

struct DiamondYear {
  int series = 0;
  char letter = 0;
  int year = 0;
  Citation cited;
};

struct DiamondMonth {
  char letter = 0;
  int month = 0;  ///< 1..12; a month may have two letters
  Citation cited;
};

struct DiamondClass {
  std::string numeral;  ///< "IV", "XII i"
  std::string material;
  Citation cited;
};

/// Days on which other letters were used than the tables have.
struct DiamondException {
  int series = 0;
  CalendarDay from;
  CalendarDay to;
  char year_letter = 0;
  char month_letter = 0;
  std::string reads;
  Citation cited;
};

struct DiamondTables {
  std::vector<DiamondSeries> series;
  std::vector<DiamondYear> years;
  std::vector<DiamondMonth> months;
  std::vector<DiamondClass> classes;
  std::vector<DiamondException> exceptions;
};

/// The first registered-design number of a year in one of the tables that circulate.
struct RegisteredNumber {
  std::string table;
  int year = 0;
  std::int64_t first = 0;
  Citation cited;
};

/// How a rule stands beside the others of its mark.
enum class RuleRole {
  main,       ///< the usual reading; several may stand side by side
  variant,    ///< another source gives other years
  exception,  ///< known pieces outside the main rule
};

/// What the years of a rule speak of.
enum class MarkDates {
  vessel,  ///< the making of the vessel
  design,  ///< the registration of its design
  stamp,   ///< the stamping, which may be long after the making
};

template <>
struct Words<RuleRole> {
  static constexpr std::array<std::string_view, 3> kNames{"main", "variant", "exception"};
};
template <>
struct Words<MarkDates> {
  static constexpr std::array<std::string_view, 3> kNames{"vessel", "design", "stamp"};
};

struct MarkRule {
  std::string mark;  ///< which mark: the key of its wordings
  RuleRole role = RuleRole::main;
  std::string reads;
  std::optional<int> earliest;
  std::optional<int> latest;
  MarkDates dates = MarkDates::vessel;
  Nature nature = Nature::usual;
  Citation cited;
};

/// Words on a pot by which a mark is known: lower case, without points, letters that belong together joined.
struct MarkWording {
  std::string words;
  std::string mark;
};

/// What a mark does not say, or a trap.
struct MarkCaution {
  std::string mark;
  std::string text;
  Citation cited;
};

/// A number of the uniform verification mark and the district it stood for.
struct VerificationNumber {
  int number = 0;
  std::string district;
  Citation cited;
};

struct MarkTables {
  std::vector<MarkRule> rules;
  std::vector<MarkWording> wordings;
  std::vector<MarkCaution> cautions;
  std::vector<VerificationNumber> verification;
  std::vector<RegisteredNumber> registered;
};

}  // namespace sherd
