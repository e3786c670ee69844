#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "http/route.h"

namespace sherd::http {
namespace {

TEST(Routes, of_the_program_have_each_use_case_once_and_those_that_the_pages_read) {
  std::vector<std::string> paths, calls;
  for (const Route& route : all_routes()) {
    const std::string call = route.verb + " " + route.path;
    EXPECT_THAT(calls, ::testing::Not(::testing::Contains(call)));
    calls.push_back(call);
    paths.push_back(route.path);
    EXPECT_TRUE(route.verb == "GET" || route.verb == "POST") << route.name;
  }
  EXPECT_THAT(paths, ::testing::IsSupersetOf(
                         {"/api/site", "/api/lines", "/api/findings", "/api/tally", "/api/dates", "/api/changes"}));
}

}  // namespace
}  // namespace sherd::http
