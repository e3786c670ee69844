#include "methods/quantify/natural_order.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <algorithm>
#include <string>
#include <vector>

namespace sherd::quantify {
namespace {

using testing::ElementsAre;

TEST(NaturalOrder, lists_numbers_by_their_value_and_blank_last) {
  std::vector<std::string> labels{"10b", "", "9", "10A", "010", "2001", "10", "pit 3", "Pit 12"};
  std::sort(labels.begin(), labels.end(), NaturalLess{});
  EXPECT_THAT(labels, ElementsAre("9", "010", "10", "10A", "10b", "2001", "pit 3", "Pit 12", ""));
}

TEST(NaturalOrder, is_an_order) {
  EXPECT_TRUE(rc::check([] {
    const auto label = rc::gen::container<std::string>(rc::gen::element('0', '1', 'a', 'A', '-'));
    const std::string a = *label;
    const std::string b = *label;
    const std::string c = *label;
    RC_ASSERT((natural_order(a, b) == 0) == (a == b));
    RC_ASSERT((natural_order(a, b) < 0) == (natural_order(b, a) > 0));
    if (NaturalLess{}(a, b) && NaturalLess{}(b, c)) RC_ASSERT(NaturalLess{}(a, c));
  }));
}

}  // namespace
}  // namespace sherd::quantify
