#include "figure/svg.h"

#include <limits>

#include "figure/testing.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

TEST(Units, HaveAtMostTwoDecimalsAndNoMinusZero) {
  EXPECT_EQ(units(8.4), "84");
  EXPECT_EQ(units(1.23456), "12.35");
  EXPECT_EQ(units(1.25), "12.5");
  EXPECT_EQ(units(-0.0001), "0");
  EXPECT_EQ(units(-0.0), "0");
  EXPECT_EQ(units(100), "1000");
  EXPECT_EQ(units(-3.5), "-35");
  EXPECT_EQ(units(std::numeric_limits<double>::quiet_NaN()), "0");
}

// XML 1.0 (fifth edition), sections 2.2 (characters) and 2.4 (what must be escaped).
TEST(XmlText, EscapesWhatXmlAsksForAndDropsWhatItForbids) {
  EXPECT_EQ(xml_text("a & b < c > \"d\""), "a &amp; b &lt; c &gt; &quot;d&quot;");
  EXPECT_EQ(xml_text(std::string_view("a\0b\x1F"
                                      "c",
                                      5)),
            "a b c");
  EXPECT_EQ(xml_text("\xFFx"), "\uFFFDx");
  EXPECT_EQ(xml_text("\uFFFF"), " ");
  EXPECT_EQ(xml_text("K\u00FCche \U0001F3FA"), "K\u00FCche \U0001F3FA");
}

TEST(Svg, SaysItsSizeInMillimetresAndDrawsInTenths) {
  const Element root = elements_of(Svg().finish(84, 60.5, "Sherds & weight")).front();
  EXPECT_EQ(root.value("width"), "84.00mm");
  EXPECT_EQ(root.value("height"), "60.50mm");
  EXPECT_EQ(root.value("viewBox"), "0 0 840 605");
  EXPECT_EQ(root.value("aria-label"), "Sherds &amp; weight");
}

TEST(Svg, AMarkCarriesItsTitleAndItsDataSet) {
  Svg svg;
  svg.begin_mark("grey-1: 34 %", "fabric=\"grey-1\"");
  svg.rect({0, 0, 10, 3}, {Paint::mark});
  svg.end_mark();
  const std::vector<Element> elements = elements_of(svg.finish(84, 20, "t"));
  EXPECT_EQ(unescaped(elements[1].value("data-set")), "fabric=\"grey-1\"");
  EXPECT_EQ(elements[2].name, "title");
  EXPECT_EQ(elements[2].text, "grey-1: 34 %");
  EXPECT_EQ(elements[4].value("class"), "f-mark");
  EXPECT_EQ(elements[4].value("fill"), "#2A4B7C");
}

TEST(Svg, AMarkWithoutRowsHasNoDataSet) {
  Svg svg;
  svg.begin_mark("whole site", "");
  svg.end_mark();
  EXPECT_FALSE(elements_of(svg.finish(84, 20, "t"))[1].attributes.contains("data-set"));
}

TEST(Words, NumbersAreGroupedAndHaveATrueMinus) {
  EXPECT_EQ(number_text(12345.678, 1), "12,345.7");
  EXPECT_EQ(number_text(999, 0), "999");
  EXPECT_EQ(number_text(1234567, 0), "1,234,567");
  EXPECT_EQ(number_text(-2.5, 1), "\u22122.5");
  EXPECT_EQ(number_text(-0.01, 1), "0.0");
  EXPECT_EQ(number_text(1.5e15, 0), "1.5e+15");
  EXPECT_EQ(number_text(std::numeric_limits<double>::infinity(), 0), "");
}

TEST(Words, TheAxisOfYearsSaysWhichEraItIsIn) {
  EXPECT_EQ(year_axis_title(Year{1}, Year{400}), "Year AD");
  EXPECT_EQ(year_axis_title(Year{0}, Year{400}), "Year BC and AD");
  EXPECT_EQ(year_axis_title(Year{-99}, Year{0}), "Year BC");
}

}  // namespace
}  // namespace sherd::figure
