#include <gmock/gmock.h>

#include "desk/archive/write_archive.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::HasSubstr;

class ArchivedDrawings : public ImportBench {
 protected:
  ArchivedDrawings() : ImportBench(store::in_memory()) {
    take("sherds", "record,context,fabric,form,count,decoration\n11,1,grey-1,jar,4,combed\n");
    take("pieces", "piece,record,rim_diameter_mm,diameter_certainty\nP 1,11,100,sure\nP2,,100,sure\nP3,,,\n");
    std::string points = "piece,side,point,r_mm,z_mm\n";
    for (const std::string piece : {"P 1", "P2"}) {
      points += piece + ",outer,1,0,0\n" + piece + ",outer,2,40,0\n" + piece + ",outer,3,50,80\n";
      points += piece + ",inner,1,0,6\n" + piece + ",inner,2,35,6\n" + piece + ",inner,3,50,80\n";
    }
    take("sections", points);
    take("drawings", "drawing,piece,catalogue,scale\nD1,P 1,7,1:2\nD2,P2,8,as it comes\n");
    ArchiveRequest request;
    request.store = "x.sherds";
    request.folder = "a";
    must(write_archive(request, desk_.environment, desk_.progress));
  }
  std::string file(const std::string& name) { return must(desk_.files.read("a/" + name)); }
};

TEST_F(ArchivedDrawings, AreOfEveryPieceWithASectionAtTheScaleOfTheRegister) {
  EXPECT_THAT(file("drawings/P_1.svg"), HasSubstr("Scale 1:2"));
  EXPECT_TRUE(file("drawings/P_1.pdf").starts_with("%PDF"));
  EXPECT_THAT(file("drawings/P2.svg"), HasSubstr("Scale 1:4"));
  EXPECT_FALSE(desk_.files.exists("a/drawings/P3.svg"));
}

TEST_F(ArchivedDrawings, AreDescribedWithTheirScaleAndWithWhatIsNotDrawn) {
  EXPECT_THAT(file("metadata/files.csv"),
              HasSubstr("drawings/P_1.svg,vector image,Drawing of P 1,\"7, P 1: grey-1 jar, context 1; at 1:2; the "
                        "decoration of P 1 (combed) has no place on its wall; record it in bands\""));
  EXPECT_THAT(file("README.txt"), HasSubstr("drawings/  vessels drawn from their measured sections"));
}

}  // namespace
}  // namespace sherd::desk
