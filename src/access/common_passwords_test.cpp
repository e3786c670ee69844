#include "access/common_passwords.h"

#include <gtest/gtest.h>

#include "access/alter_account.h"

namespace sherd::access {
namespace {

// The commonest of the lists that security firms publish each year: 123456, password, qwerty (NordPass, SplashData; the
// words from memory, their being in our list is what is tested).
TEST(CommonPassword, is_known_whatever_its_case_and_whatever_stands_around_it) {
  for (const char* one : {"password", "PassWord", "qwerty", "123456", "1qaz2wsx3edc", "sonyericsson"})
    EXPECT_TRUE(is_common(one)) << one;
  for (const char* one :
       {"password2026!", "1234qwerty5678", "!!!Dragon!!!999", "passwordpassword", "monkeymonkeymonkey1"})
    EXPECT_TRUE(is_common(one)) << one;
}

TEST(CommonPassword, is_not_what_has_words_of_its_own) {
  for (const char* one :
       {"grey rim slipped foot", "password of the kiln", "x", "", "2026-11-26 12:00", "\xC3\xA9t\xC3\xA9"})
    EXPECT_FALSE(is_common(one)) << one;
}

TEST(CommonPassword, is_refused_as_a_password_however_long) {
  const Account ben{.name = "ben", .recorder = "B"};
  for (const char* one : {"password2026!", "qwerty123456", "finalfantasy", "justinbieber"}) {
    const auto refused = check_password(one, ben);
    ASSERT_FALSE(refused) << one;
    EXPECT_EQ(refused.error().code, "password_common") << one;
  }
  EXPECT_EQ(check_password("my sherdwright word", ben).error().code, "password_plain");
}

class Altering : public testing::Test {
 protected:
  Result<std::string> alter(const Alteration& asked) {
    return access::alter(accounts_, asked, 1000, PasswordCost::least);
  }
  Accounts accounts_;
};

TEST_F(Altering, a_new_account_is_a_reader_with_a_password_that_it_has_to_change) {
  const auto made = alter({.name = "ben", .role = {}, .recorder = {}});
  ASSERT_TRUE(made);
  const Account& ben = *accounts_.find("ben");
  EXPECT_EQ(ben.role, Role::reader);
  EXPECT_EQ(ben.recorder, "ben");
  EXPECT_TRUE(ben.must_change);
  EXPECT_TRUE(is_password(*made, ben.hash));
}

TEST_F(Altering, a_role_changes_alone_and_a_new_password_ends_what_began_before) {
  ASSERT_TRUE(alter({.name = "ben", .role = {}, .recorder = "BE"}));
  const Account before = *accounts_.find("ben");
  const auto promoted =
      access::alter(accounts_, {.name = "BEN", .role = "editor", .recorder = {}}, 2000, PasswordCost::least);
  ASSERT_TRUE(promoted);
  EXPECT_EQ(*promoted, "");
  EXPECT_EQ(accounts_.find("ben")->role, Role::editor);
  EXPECT_EQ(accounts_.find("ben")->hash, before.hash);
  EXPECT_EQ(accounts_.find("ben")->since, before.since);
  Alteration anew{.name = "ben", .role = {}, .recorder = {}};
  anew.new_password = true;
  const auto made = access::alter(accounts_, anew, 3000, PasswordCost::least);
  ASSERT_TRUE(made);
  EXPECT_EQ(accounts_.find("ben")->since, 3001);
  EXPECT_NE(accounts_.find("ben")->hash, before.hash);
}

TEST_F(Altering, what_is_refused_leaves_the_list_as_it_was_in_a_copy) {
  ASSERT_TRUE(alter({.name = "ben", .role = {}, .recorder = "B"}));
  EXPECT_EQ(alter({.name = "ada", .role = "king", .recorder = {}}).error().code, "unknown_role");
  EXPECT_EQ(accounts_.find("ada"), nullptr);
  EXPECT_EQ(alter({.name = "ada", .role = {}, .recorder = "b"}).error().code, "recorder_taken");
  Alteration chosen{.name = "ben", .role = {}, .recorder = {}, .password = "password2026!"};
  EXPECT_EQ(alter(chosen).error().code, "password_common");
  Alteration gone{.name = "bea", .role = {}, .recorder = {}};
  gone.remove = true;
  EXPECT_EQ(alter(gone).error().hint, "did you mean \"ben\"?");
}

}  // namespace
}  // namespace sherd::access
