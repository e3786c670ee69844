#include "access/accounts.h"

#include <gtest/gtest.h>

namespace sherd::access {
namespace {

Account account(std::string name, std::string recorder, Role role = Role::recorder) {
  return {.name = std::move(name), .recorder = std::move(recorder), .role = role, .hash = "$argon2id$x", .since = 5};
}

std::string code_of(const Result<void>& result) { return result ? "" : result.error().code; }

TEST(Accounts, come_back_from_their_text_as_they_were) {
  Accounts accounts;
  ASSERT_TRUE(accounts.put(account("ada", "A, \"L\"", Role::owner)));
  ASSERT_TRUE(accounts.put(account("Ben", "B")));
  const auto again = Accounts::read(accounts.text());
  ASSERT_TRUE(again) << again.error().message;
  EXPECT_EQ(again->all(), accounts.all());
}

TEST(Accounts, are_found_whatever_the_case_of_letters_and_replaced_by_name) {
  Accounts accounts;
  ASSERT_TRUE(accounts.put(account("Ben", "B")));
  ASSERT_TRUE(accounts.put(account("BEN", "B", Role::editor)));
  ASSERT_EQ(accounts.all().size(), 1U);
  ASSERT_NE(accounts.find("ben"), nullptr);
  EXPECT_EQ(accounts.find("ben")->role, Role::editor);
}

TEST(Accounts, never_write_two_under_one_name) {
  Accounts accounts;
  ASSERT_TRUE(accounts.put(account("ben", "B")));
  EXPECT_EQ(code_of(accounts.put(account("bea", "b"))), "recorder_taken");
}

TEST(Accounts, refuse_names_that_could_be_mistaken_or_break_a_line) {
  Accounts accounts;
  for (const std::string& name : {std::string(), std::string("a b"), std::string("a\nb"), std::string(41, 'a')})
    EXPECT_EQ(code_of(accounts.put(account(name, "B"))), "bad_name") << name;
  EXPECT_EQ(code_of(accounts.put(account("ben", ""))), "bad_recorder");
  EXPECT_EQ(code_of(accounts.put(account("ben", "B\n"))), "bad_recorder");
}

TEST(Accounts, a_name_that_is_not_there_is_said_with_the_nearest) {
  Accounts accounts;
  ASSERT_TRUE(accounts.put(account("marian", "M")));
  const auto removed = accounts.remove("marion");
  ASSERT_FALSE(removed);
  EXPECT_EQ(removed.error().message, "there is no account \"marion\"");
  EXPECT_EQ(removed.error().hint, "did you mean \"marian\"?");
}

TEST(Accounts, a_damaged_list_is_refused_with_its_row) {
  const std::string head = "name,recorder,role,since,must_change,password\n";
  const auto refused = [&](const std::string& rows) {
    const auto read = Accounts::read(head + rows);
    return read ? std::string("read") : read.error().code + ": " + read.error().message;
  };
  EXPECT_EQ(refused("ben,B,king,0,no,x\n").substr(0, 14), "bad_accounts: ");
  EXPECT_NE(refused("ben,B,king,0,no,x\n").find("there is no role \"king\""), std::string::npos);
  EXPECT_NE(refused("ben,B,reader,soon,no,x\n"), "read");
  EXPECT_NE(refused("ben,B,reader,0,perhaps,x\n"), "read");
  EXPECT_NE(refused("ben,B,reader,0,no,x\nBen,C,reader,0,no,x\n").find("twice"), std::string::npos);
  EXPECT_EQ(refused("ben,B,reader,0,no,x\n"), "read");
}

TEST(Password, is_long_enough_and_not_one_that_is_guessed_at_once) {
  const Account ben = account("ben", "B");
  EXPECT_EQ(code_of(check_password("eleven char", ben)), "password_short");
  EXPECT_EQ(code_of(check_password(std::string(129, 'x'), ben)), "password_long");
  EXPECT_EQ(code_of(check_password("aaaaaaaaaaaa", ben)), "password_plain");
  EXPECT_EQ(code_of(check_password("abcdefghijkl", ben)), "password_plain");
  EXPECT_EQ(code_of(check_password("987654321098", ben)), "password_plain");
  EXPECT_EQ(code_of(check_password("the pots of Ben", ben)), "password_plain");
  EXPECT_EQ(code_of(check_password("grey rim slipped foot", ben)), "");
  EXPECT_EQ(code_of(check_password("\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", ben)), "password_short");
}

TEST(Password, opens_by_itself_alone) {
  const auto hash = password_hash("grey rim slipped foot", PasswordCost::least);
  ASSERT_TRUE(hash);
  EXPECT_TRUE(hash->starts_with("$argon2id$v=19$")) << *hash;  // the string form of RFC 9106's reference code
  EXPECT_TRUE(is_password("grey rim slipped foot", *hash));
  EXPECT_FALSE(is_password("grey rim slipped foot ", *hash));
  EXPECT_FALSE(is_password("", *hash));
  EXPECT_FALSE(is_password("x", ""));
  EXPECT_FALSE(is_password("x", std::string(500, '$')));
  EXPECT_NE(*hash, *password_hash("grey rim slipped foot", PasswordCost::least));  // each with its own salt
}

// Made by the command-line program of the reference implementation of Argon2 (Debian's package argon2):
//   printf 'grey rim slipped foot' | argon2 somesaltsomesalt -id -t 2 -m 12 -p 1 -e
TEST(Password, opens_a_hash_that_the_reference_program_made) {
  const std::string hash =
      "$argon2id$v=19$m=4096,t=2,p=1$c29tZXNhbHRzb21lc2FsdA$04LLtJ4SCdVQdQ4J7B3GSYs7EVMZEhScEoxitPy+hjA";
  EXPECT_TRUE(is_password("grey rim slipped foot", hash));
  EXPECT_FALSE(is_password("grey rim slipped feet", hash));
}

TEST(Password, at_random_is_long_and_another_each_time) {
  EXPECT_EQ(random_password().size(), 20U);
  EXPECT_NE(random_password(), random_password());
  EXPECT_EQ(random_password(200).find_first_of("lo01"), std::string::npos);
}

}  // namespace
}  // namespace sherd::access
