#include "access/audit.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <thread>
#include <vector>

namespace sherd::access {
namespace {

std::string line_for(std::string_view account) {
  return audit_line("2026-01-02T03:04:05Z", {.event = "sign-in", .outcome = "refused", .account = account});
}

TEST(Audit, a_line_tells_when_what_whose_and_from_where) {
  EXPECT_EQ(
      audit_line("2026-01-02T03:04:05Z", {.event = "sign-in",
                                          .outcome = "refused",
                                          .account = "kv",
                                          .address = "10.0.0.7",
                                          .reason = "wrong_password"}),
      R"(2026-01-02T03:04:05Z audit event=sign-in outcome=refused account="kv" address="10.0.0.7" reason=wrong_password)");
  EXPECT_EQ(
      audit_line("2026-01-02T03:04:05Z",
                 {.event = "request", .outcome = "refused", .account = "", .by = "olga", .asked = "POST /api/renames"}),
      R"(2026-01-02T03:04:05Z audit event=request outcome=refused account="" by="olga" asked="POST /api/renames")");
}

// OWASP ASVS 4.0.3, 7.3.1: what is logged is encoded, so that no entry can be forged by what it holds.
TEST(Audit, what_came_from_outside_stays_in_its_quotes_and_on_its_line) {
  EXPECT_THAT(line_for("kv\n2026-01-02T03:04:06Z audit event=sign-in outcome=succeeded"),
              ::testing::HasSubstr("account=\"kv\\x0a2026-01-02T03:04:06Z audit event="));
  EXPECT_THAT(line_for("kv\" outcome=succeeded x=\"\\"),
              ::testing::EndsWith("account=\"kv\\\" outcome=succeeded x=\\\"\\\\\""));
  EXPECT_THAT(line_for("\r\x1b[2J\u0085\u2028\u202e\xff"),
              ::testing::EndsWith(R"(account="\x0d\x1b[2J\xc2\x85\xe2\x80\xa8\xe2\x80\xae\xff")"));
}

TEST(Audit, every_byte_becomes_printable_ascii) {
  for (int byte = 0; byte < 256; ++byte) {
    const std::string line = line_for(std::string(1, static_cast<char>(byte)));
    EXPECT_TRUE(std::ranges::all_of(line, [](char c) { return c >= ' ' && c <= '~'; })) << byte;
  }
}

TEST(Audit, a_long_name_is_cut) {
  EXPECT_THAT(line_for(std::string(1 << 20, 'a')), ::testing::EndsWith("account=\"" + std::string(80, 'a') + "...\""));
}

TEST(Audit, lines_of_several_threads_stay_whole) {
  std::vector<std::string> lines;  // no lock of its own
  const Audit audit = audit_by_lines([] { return std::string("2026-01-02T03:04:05Z"); },
                                     [&](const std::string& line) { lines.push_back(line); });
  std::vector<std::thread> threads;
  for (int t = 0; t < 4; ++t) {
    threads.emplace_back([&] {
      for (int i = 0; i < 500; ++i) audit({.event = "sign-out", .outcome = "succeeded", .account = "kv"});
    });
  }
  for (std::thread& thread : threads) thread.join();
  ASSERT_EQ(lines.size(), 2000U);
  EXPECT_EQ(std::ranges::count(lines, R"(2026-01-02T03:04:05Z audit event=sign-out outcome=succeeded account="kv")"),
            2000);
}

}  // namespace
}  // namespace sherd::access
