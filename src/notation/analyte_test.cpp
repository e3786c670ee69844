#include "notation/analyte.h"

#include <gtest/gtest.h>

namespace sherd::notation {
namespace {

AtomicWeights weights() {
  AtomicWeights out;
  for (const char* symbol : {"O", "H", "C", "N", "Si", "Ti", "Al", "Fe", "Mn", "Mg", "Ca", "Na",
                             "K", "P", "S", "V", "Co", "Nb", "Zr", "Pb", "Y",  "I",  "In"})
    out[symbol] = {1, 1, ""};
  return out;
}

std::string read(std::string_view text) {
  const auto heading = read_analyte_heading(text, weights());
  if (!heading) return "none";
  static constexpr std::array<const char*, 4> kParts{"value", "error", "limit", "unit"};
  std::string out = formula_text(heading->formula) + " " + kParts[static_cast<std::size_t>(heading->part)];
  if (heading->unit) out += " " + std::string(word(*heading->unit));
  if (heading->multiple) out += " " + std::to_string(*heading->multiple) + "sd";
  return out;
}

TEST(AnalyteHeading, units_are_read_as_people_write_them) {
  EXPECT_EQ(read("Fe_ppm"), "Fe value ppm");
  EXPECT_EQ(read("Al2O3_pct"), "Al2O3 value percent");
  EXPECT_EQ(read("Al2O3 (wt%)"), "Al2O3 value percent");
  EXPECT_EQ(read("SiO2 wt.-%"), "SiO2 value percent");
  EXPECT_EQ(read("Zr [mg/kg]"), "Zr value ppm");
  EXPECT_EQ(read("Zr (\u00b5g/g)"), "Zr value ppm");
  EXPECT_EQ(read("Nb"), "Nb value");
  EXPECT_EQ(read("Fe Concentration"), "Fe value");
}

TEST(AnalyteHeading, errors_limits_and_units_are_parts_of_their_analyte) {
  EXPECT_EQ(read("Fe_err"), "Fe error 1sd");
  EXPECT_EQ(read("Fe Err"), "Fe error");
  EXPECT_EQ(read("Zr +/-"), "Zr error");
  EXPECT_EQ(read("Zr \u00b1 2\u03c3"), "Zr error 2sd");
  EXPECT_EQ(read("Fe Error 1s"), "Fe error 1sd");
  EXPECT_EQ(read("Pb LOD"), "Pb limit");
  EXPECT_EQ(read("Mn unit"), "Mn unit");
}

TEST(AnalyteHeading, all_iron_and_capitals_are_known) {
  EXPECT_EQ(read("Fe2O3T"), "Fe2O3 value");
  EXPECT_EQ(read("Fe2O3(T)"), "Fe2O3 value");
  EXPECT_EQ(read("FE2O3"), "Fe2O3 value");
  EXPECT_EQ(read("SIO2"), "SiO2 value");
  EXPECT_EQ(read("CO"), "Co value");
}

TEST(AnalyteHeading, other_headings_are_none) {
  for (const char* text :
       {"", "Sample", "No", "Sample I", "Live Time", "Date", "Fe Mn", "CO2", "H2O", "Fe K\u03b1", "O"})
    EXPECT_EQ(read(text), "none") << text;
}

TEST(AnalyteHeading, a_part_alone_belongs_to_its_neighbour) {
  EXPECT_EQ(read_part_heading("+/-")->part, HeadingPart::error);
  EXPECT_EQ(read_part_heading("2s")->multiple, 2);
  EXPECT_EQ(read_part_heading("LOD")->part, HeadingPart::limit);
  EXPECT_FALSE(read_part_heading("Sample").has_value());
  EXPECT_FALSE(read_part_heading("ppm").has_value());
}

TEST(AnalyteHeading, what_is_left_over_is_no_element) {
  EXPECT_TRUE(is_pseudo_element("LE"));
  EXPECT_TRUE(is_pseudo_element("Bal (%)"));
  EXPECT_TRUE(is_pseudo_element("LE +/-"));
  EXPECT_TRUE(is_pseudo_element("Sum"));
  EXPECT_FALSE(is_pseudo_element("Fe"));
  EXPECT_FALSE(is_pseudo_element(""));
}

}  // namespace
}  // namespace sherd::notation
