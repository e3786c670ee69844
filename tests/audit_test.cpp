#include <gmock/gmock.h>

#include "served.h"

/// What a server tells whoever keeps it.
namespace sherd::tests {
namespace {

using ::testing::ContainsRegex;
using ::testing::HasSubstr;
using ::testing::Not;

class ServersLog : public Bench {
 protected:
  static constexpr const char* kTime = "20[0-9][0-9]-[0-9][0-9]-[0-9][0-9]T[0-9][0-9]:[0-9][0-9]:[0-9][0-9]Z";
  void SetUp() override { make_small_store("x.sherds"); }
};

TEST_F(ServersLog, has_a_line_for_each_try_to_sign_in_and_no_password) {
  const std::string password = ask({"account", "accounts.csv", "kv", "--role", "owner"})["password"];
  const Served served(folder_.string(), path("x.sherds"), path("accounts.csv"));
  EXPECT_EQ(served.post("/api/sign-in", {{"name", "kv"}, {"password", password}}).status, 200);
  EXPECT_EQ(served.post("/api/sign-in", {{"name", "kv\nforged"}, {"password", password + "x"}}).status, 401);
  EXPECT_EQ(served.get("/api/site").status, 401);
  const std::string log = served.log(), time = kTime;
  EXPECT_THAT(
      log, ContainsRegex("^" + time + " audit event=sign-in outcome=succeeded account=\"kv\" address=\"127.0.0.1\"\n" +
                         time +
                         " audit event=sign-in outcome=refused account=\"kv.x0aforged\" "
                         "address=\"127.0.0.1\" reason=wrong_password\n" +
                         time +
                         " audit event=request outcome=refused account=\"\" address=\"127.0.0.1\" "
                         "asked=\"GET /api/site\" reason=not_signed_in\n$"));
  EXPECT_THAT(log, Not(HasSubstr(password)));
}

TEST_F(ServersLog, without_accounts_tells_that_the_address_was_opened_and_never_its_token) {
  const Served served(folder_.string(), path("x.sherds"));
  EXPECT_EQ(served.get("/?token=0123456789abcdef").status, 303);
  EXPECT_THAT(served.log(),
              ContainsRegex(std::string("^") + kTime +
                            " audit event=sign-in outcome=succeeded account=\"\" address=\"127.0.0.1\"\n$"));
}

}  // namespace
}  // namespace sherd::tests
