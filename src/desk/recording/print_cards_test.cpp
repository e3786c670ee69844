#include "desk/recording/print_cards.h"

#include <gmock/gmock.h>

#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

class Cards : public ImportBench {
 protected:
  Cards() : ImportBench(store::in_memory()) {}

  std::string file(const std::string& name) { return must(desk_.files.read(name)); }
  Result<CardsResponse> print(CardsRequest request) { return print_cards(request, desk_.environment, desk_.progress); }
};

TEST_F(Cards, NeedNoStore) {
  const auto printed = print({.of = "rims", .out = "rims.svg", .paper = "A5"});
  ASSERT_TRUE(printed);
  EXPECT_EQ(printed->width_mm, 148);
  EXPECT_EQ(printed->height_mm, 210);
  EXPECT_GE(printed->lines, 12);
  EXPECT_THAT(file("rims.svg"), HasSubstr(">sagitta<"));
}

TEST_F(Cards, CarrySiteContextAndTheCodesOfTheSeriesThatAreInUse) {
  take("fabrics", "fabric,name,status\nsand-9,Old,retired\n");
  const auto printed = print({.of = "lines", .out = "lines.svg", .in = "x.sherds", .context = "1013"});
  ASSERT_TRUE(printed) << printed.error().message;
  EXPECT_EQ(printed->width_mm, 297);
  const std::string svg = file("lines.svg");
  EXPECT_THAT(svg, HasSubstr("1013"));
  EXPECT_THAT(svg, HasSubstr("Fabrics: "));
  EXPECT_THAT(svg, HasSubstr("grey-1"));
  EXPECT_THAT(svg, Not(HasSubstr("sand-9")));
}

TEST_F(Cards, AsAPageSayTheSizeOfTheirPaper) {
  ASSERT_TRUE(print({.of = "scan", .out = "scan.html", .paper = "A4"}));
  EXPECT_THAT(file("scan.html"), HasSubstr("@page { size: 297mm 210mm; margin: 0 }"));
}

TEST_F(Cards, RefuseWhatTheyDoNotKnow) {
  EXPECT_EQ(print({.of = "line", .out = "a.pdf"}).error().hint, "did you mean \"lines\"?");
  EXPECT_EQ(print({.of = "scan", .out = "a.doc"}).error().code, "unknown_format");
  EXPECT_EQ(print({.of = "scan", .out = "a.pdf", .paper = "A3"}).error().message, "paper is \"A3\"");
}

}  // namespace
}  // namespace sherd::desk
