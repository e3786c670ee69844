#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "notation/testing_dates.h"

namespace sherd::notation {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;

void expect_shipped(const std::vector<DateCase>& cases, DateSettings settings = {}) {
  const DateReader reader = shipped_reader(std::move(settings));
  expect_dates(cases, [&](const std::string& text) { return reader.read(text); });
}

std::string message_of(const std::string& text) {
  const auto reading = shipped_reader().read(text);
  EXPECT_FALSE(reading) << text;
  return reading ? std::string{} : reading.error().message;
}

TEST(PeriodDates, are_those_of_the_portable_antiquities_scheme_unless_another_is_asked_for) {
  // Portable Antiquities Scheme, period timeline, finds.org.uk/volunteerrecording/guide/timeline: every row of it.
  expect_shipped({{"Palaeolithic", -500000, -10001},
                  {"Lower Palaeolithic", -500000, -150001},
                  {"Middle Palaeolithic", -150000, -40001},
                  {"Upper Palaeolithic", -40000, -10001},
                  {"Mesolithic", -10000, -4001},
                  {"early Mesolithic", -10000, -7001},
                  {"late Mesolithic", -7000, -4001},
                  {"Neolithic", -4000, -2351},
                  {"early Neolithic", -4000, -3501},
                  {"mid Neolithic", -3500, -2701},
                  {"L. Neolithic", -2700, -2351},
                  {"Bronze Age", -2350, -801},
                  {"EBA", -2350, -1601},
                  {"MBA", -1600, -1001},
                  {"Late Bronze Age", -1000, -801},
                  {"Iron Age", -800, 42},
                  {"E Iron Age", -800, -401},
                  {"middle Iron-Age", -400, -101},
                  {"LIA", -100, 42},
                  {"Roman", 43, 409},
                  {"early Roman", 43, 200},
                  {"late Roman", 201, 409},
                  {"Early Medieval", 410, 1066},
                  {"middle early medieval", 701, 849},
                  {"medieval", 1066, 1539},
                  {"Post-medieval", 1540, 1900},
                  {"post medieval", 1540, 1900},
                  {"the Roman period", 43, 409},
                  {"modern", 1901, kOpenEnd}});
}

TEST(PeriodDates, of_other_authorities_differ) {
  // University of Bradford, archaeomagnetism glossary, after the English Heritage periods list.
  expect_shipped({{"Neolithic", -4000, -2200}, {"Bronze Age", -2600, -700}, {"Roman", 43, 410}},
                 {.authority = "english-heritage"});
  // Welsh Archaeological Trusts, Archwilio; Dyfed Archaeological Trust for the industrial period.
  expect_shipped({{"medieval", 1086, 1536}, {"Iron Age", -700, 43}, {"Industrial", 1750, 1899}},
                 {.authority = "wales"});
  // East Midlands Historic Environment Research Framework: post-medieval from 1485.
  expect_shipped({{"post-medieval", 1485, kOpenEnd}}, {.authority = "east-midlands"});
  // F. Pryor, Britain in the Middle Ages, dates and periods.
  expect_shipped({{"Mid Saxon", 650, 850}, {"Saxo-Norman", 850, 1150}, {"medieval", 1066, 1550}},
                 {.authority = "pryor"});
}

TEST(PeriodDates, two_names_are_read_as_a_range) {
  expect_shipped({{"LIA/ER", -100, 200},
                  {"IA-Roman", -800, 409},
                  {"Roman to medieval", 43, 1539},
                  {"late Iron Age-early Roman", -100, 200},
                  {"early to middle Iron Age", -800, -101},
                  {"M-L Iron Age", -400, 42},
                  {"E/MIA", -800, -101},
                  {"M-LBA", -1600, -801},
                  {"mid-late Bronze Age", -1600, -801},
                  {"early to late Roman", 43, 409},
                  {"Hadrianic-Antonine", 117, 193},
                  {"C1-Flavian", 1, 96},
                  {"LIA-120", -100, 120},
                  {"50 BC-early Roman", -50, 200}});
}

TEST(PeriodDates, take_open_ends_and_doubt) {
  expect_shipped({{"post-Roman", 409, kOpenEnd},
                  {"pre-Flavian", kOpenEnd, 68},
                  {"Flavian+", 69, kOpenEnd},
                  {"?Roman", 43, 409},
                  {"until Hadrianic", kOpenEnd, 138}});
  EXPECT_EQ(shipped_reader().read("Roman?")->certainty, Certainty::probable);
  EXPECT_EQ(shipped_reader().read("poss. LIA")->certainty, Certainty::possible);
}

TEST(PeriodDates, name_the_authority_and_warn_that_a_period_is_not_an_object) {
  const auto roman = shipped_reader().read("Roman");
  EXPECT_EQ(roman->period_authority, "pas");
  EXPECT_THAT(roman->because, testing::ElementsAre(HasSubstr("Roman: 43-409, by pas (Portable Antiquities Scheme")));
  EXPECT_THAT(roman->warnings, testing::ElementsAre(HasSubstr("use the object's own dates")));
  const auto hadrianic = shipped_reader().read("Hadrianic");
  EXPECT_EQ(hadrianic->period_authority, "rome");
  EXPECT_THAT(hadrianic->warnings, testing::IsEmpty());
  EXPECT_EQ(shipped_reader().read("LIA-Hadrianic")->period_authority, "pas, rome");
}

TEST(PeriodDates, from_memory_say_so) {
  EXPECT_THAT(shipped_reader().read("late medieval")->warnings, Contains(HasSubstr("unverified: from memory")));
  EXPECT_THAT(shipped_reader().read("Carausius")->warnings, Contains(HasSubstr("unverified: from memory")));
  EXPECT_THAT(shipped_reader().read("Trajanic")->warnings, Not(Contains(HasSubstr("unverified"))));
}

TEST(PeriodDates, that_the_authority_lacks_come_from_another_with_a_warning) {
  const auto reading = shipped_reader().read("Middle Saxon");
  EXPECT_EQ(reading->period_authority, "pryor");
  EXPECT_THAT(reading->warnings, Contains("pas does not give Middle Saxon; its years are those of pryor"));
}

TEST(PeriodDates, are_refused_where_other_authorities_differ) {
  const DateReader reader = shipped_reader({.authority = "east-midlands"});
  const auto reading = reader.read("Iron Age");
  ASSERT_FALSE(reading);
  EXPECT_THAT(reading.error().message,
              HasSubstr("^ authorities differ (pas, english-heritage, wales): write the years"));
}

TEST(Reigns, of_rome_are_as_published) {
  // Metropolitan Museum of Art, List of Rulers of the Roman Empire.
  expect_shipped({{"Hadrianic", 117, 138},
                  {"Antonine", 138, 193},
                  {"Augustan", -27, 14},
                  {"Claudian", 41, 54},
                  {"Neronian", 54, 68},
                  {"Flavian", 69, 96},
                  {"Trajanic", 98, 117},
                  {"Severan", 193, 235},
                  {"temp. Nero", 54, 68},
                  {"Trajanic-Hadrianic", 98, 138},
                  {"Neronian-Flavian", 54, 96},
                  {"reign of Septimius Severus", 193, 211}});
  // F. E. Smitha, List of Roman Emperors from Diocletian to Zeno.
  expect_shipped({{"Constantine I", 306, 337}, {"Valens", 364, 378}});
  // Calculated: Claudius and Nero.
  expect_shipped({{"Claudio-Neronian", 41, 68}});
}

TEST(Reigns, of_england_and_britain_are_as_published) {
  // The Columbia Encyclopedia, Rulers of England and Great Britain.
  expect_shipped({{"temp. Edward I", 1272, 1307},
                  {"King John", 1199, 1216},
                  {"Henry VIII", 1509, 1547},
                  {"Edward the Confessor", 1042, 1066},
                  {"Edward II-III", 1307, 1377},
                  {"Henry II-Edward I", 1154, 1307}});
  // Select Essays in Anglo-American Legal History, vol. 1, A Table of British Regnal Years.
  expect_shipped({{"reign of George III", 1760, 1820},
                  {"Victorian", 1837, 1901},
                  {"in the reign of Queen Anne", 1702, 1714},
                  {"Elizabethan", 1558, 1603},
                  {"Jacobean", 1603, 1625},
                  {"Commonwealth", 1649, 1660}});
  // Britannica Kids, Kings and queens of Britain at a glance.
  expect_shipped({{"Tudor", 1485, 1603},
                  {"Stuart", 1603, 1714},
                  {"Norman", 1066, 1154},
                  {"house of Hanover", 1714, 1901},
                  {"Regency", 1811, 1820}});
  expect_shipped({{"William & Mary", 1689, 1694}});  // The British Monarchy, list of reigns
}

TEST(UnreadablePeriod, is_told_with_a_caret_and_the_nearest_name) {
  EXPECT_EQ(message_of("Hadrainic"),
            "cannot read the date: Hadrainic\n"
            "                      ^ a year, a century or the name of a period or reign is wanted here; did you mean "
            "\"Hadrianic\"?");
  EXPECT_THAT(message_of("mid Roman"), HasSubstr("^ the tables have no \"mid\" part of Roman"));
  EXPECT_THAT(message_of("early to mid Roman"), HasSubstr("the tables have no \"mid\" part of Roman"));
  EXPECT_THAT(message_of("early Hadrianic"), HasSubstr("no \"early\" part of Hadrian"));
  EXPECT_THAT(message_of("c. Roman"), HasSubstr("circa, AD and BC go with years"));
  EXPECT_THAT(message_of("AD Roman"), HasSubstr("circa, AD and BC go with years"));
  EXPECT_THAT(message_of("Roman pottery"), HasSubstr("may stand"));
  EXPECT_THAT(message_of("medieval-Roman"), HasSubstr("ends here before it starts"));
  EXPECT_THAT(message_of("post-modern"), HasSubstr("the table gives no year at that end"));
}

TEST(DateReaders, refuse_an_authority_that_is_not_there) {
  const auto reader = DateReader::with(shipped_periods(), {.authority = "wale"});
  ASSERT_FALSE(reader);
  EXPECT_EQ(reader.error().code, "unknown_period_authority");
  EXPECT_THAT(reader.error().hint, HasSubstr("did you mean \"wales\"?"));
}

TEST(DateReaders, read_years_as_before_with_or_without_tables) {
  for (const char* text : {"120-250", "L13-E14", "c. 1350", "post-270", "C13?", "early to mid 13th", "AD 43-c.60"}) {
    EXPECT_EQ(shipped_reader().read(text)->range, read_date(text)->range) << text;
    EXPECT_EQ(DateReader::with({})->read(text)->range, read_date(text)->range) << text;
  }
}

}  // namespace
}  // namespace sherd::notation
