#include "desk/vessels/find_capacity.h"

#include <gmock/gmock.h>

#include <cmath>

#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;

class CapacityOfAFile : public ImportBench {
 protected:
  CapacityOfAFile() : ImportBench(store::in_memory()) {}

  Result<CapacityResponse> capacity(const std::string& table, const std::string& file = "s.csv") {
    must(desk_.files.write(file, table));
    CapacityRequest request;
    request.section = file;
    return find_capacity(request, desk_.environment, desk_.progress);
  }
  Result<CapacityResponse> by_measures(const std::string& measures) {
    CapacityRequest request;
    request.measures = measures;
    return find_capacity(request, desk_.environment, desk_.progress);
  }
};

TEST_F(CapacityOfAFile, is_of_one_vessel_and_no_mean_of_several) {
  const auto two = capacity("piece,r_mm,z_mm\nA,0,0\nA,50,0\nA,50,100\nB,0,0\nB,20,0\nB,20,30\n");
  ASSERT_FALSE(two);
  EXPECT_EQ(two.error().code, "several_sections");
  EXPECT_THAT(two.error().message, HasSubstr("2 vessels"));
  const auto landmarks = capacity("form,AX,AY,BX,BY,CX,CY\nbowl,0,0,4,0,5,6\nbowl,0,0,3,0,4,5\n");
  ASSERT_FALSE(landmarks);
  EXPECT_EQ(landmarks.error().code, "several_sections");
}

TEST_F(CapacityOfAFile, takes_several_sections_of_one_vessel_together) {
  const auto held =
      must(capacity("vessel,section,r_mm,z_mm\nV,1,0,0\nV,1,50,0\nV,1,50,100\nV,2,0,0\nV,2,52,0\nV,2,52,100\n"));
  EXPECT_NEAR(held.capacity_ml, M_PI * (50.0 * 50 + 52 * 52) / 2 / 10, 1e-6);
  EXPECT_THAT(held.warnings, IsEmpty());
}

TEST_F(CapacityOfAFile, says_that_an_inside_without_its_floor_is_filled_from_a_flat_one) {
  const auto held = must(capacity("r_mm,z_mm\n50,0\n50,100\n"));
  EXPECT_NEAR(held.capacity_ml, M_PI * 250, 1e-6);
  EXPECT_THAT(held.warnings, Contains(HasSubstr("a flat floor of 100 mm across; where that is a break")));
}

TEST_F(CapacityOfAFile, takes_points_by_their_numbers_where_all_have_one) {
  const auto held = must(capacity("point,r_mm,z_mm\n3,50,100\n1,0,0\n2,50,0\n"));
  EXPECT_NEAR(held.capacity_ml, M_PI * 250, 1e-6);
}

TEST_F(CapacityOfAFile, is_not_of_a_vessel_of_more_than_ten_metres) {
  EXPECT_EQ(capacity("r_mm,z_mm\n0,0\n50000000,0\n50000000,100000000\n").error().code, "too_large");
}

TEST_F(CapacityOfAFile, does_not_choose_between_two_columns_of_one_name) {
  const auto twice = capacity("r_mm,z_mm,R_mm\n0,0,5\n30,0,5\n30,40,5\n");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().message, "the table has two columns \"R_mm\"");
}

TEST_F(CapacityOfAFile, takes_each_of_the_five_measures_once) {
  const auto twice = by_measures("rim=111,rim=11,neck=100,shoulder=103,height=55,neck_height=25");
  ASSERT_FALSE(twice);
  EXPECT_EQ(twice.error().message, "rim is given twice");
}

}  // namespace
}  // namespace sherd::desk
