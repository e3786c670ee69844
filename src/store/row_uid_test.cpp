#include "store/row_uid.h"

#include <gtest/gtest.h>

#include <string>

namespace sherd::store {
namespace {

TEST(RowUid, has_one_width_and_the_order_in_which_rows_were_added) {
  RowUids second(2, "b"), twelfth(12, "a");
  std::string before;
  for (const std::int64_t ordinal : {0, 1, 31, 32, 1023, 1024, 33'554'431}) {
    const std::string uid(second.at(ordinal));
    EXPECT_EQ(uid.size(), RowUids::kWidth);
    EXPECT_LT(before, uid);
    before = uid;
  }
  EXPECT_LT(before, twelfth.at(0));
}

TEST(RowUid, is_the_same_for_the_same_change_and_another_for_any_other) {
  // SHA-256 of "abc" begins ba7816bf8f01cf (FIPS 180-4, example in the standard's appendix); its first 50 bits in
  // base32hex (RFC 4648 section 7).
  EXPECT_EQ(RowUids(1, "abc").at(33),
            "000001n9s1dfsf07"
            "00011");
  EXPECT_NE(std::string(RowUids(1, "abd").at(33)), std::string(RowUids(1, "abc").at(33)));
}

}  // namespace
}  // namespace sherd::store
