#include <gmock/gmock.h>

#include <algorithm>
#include <cstdlib>

#include "program.h"

namespace sherd::tests {
namespace {

namespace fs = std::filesystem;

class Archive : public Bench {
 protected:
  /// What a command of the machine prints, run in the bench's folder.
  std::string shell(const std::string& command, int expected = 0) const {
    const std::string out = path(".said");
    const int status =
        std::system(("cd " + quoted(folder_.string()) + " && " + command + " >" + quoted(out) + " 2>&1").c_str());
    const std::string said = read(".said");
    EXPECT_EQ(WEXITSTATUS(status), expected) << command << "\n" << said;
    return said;
  }
};

TEST_F(Archive, of_the_demo_is_verified_tampered_with_and_found_out) {
  ask({"demo", "d"});
  const auto made = ask({"archive", "d/tanyard.sherds", "a"});
  const std::string seal = made["sha256"];
  EXPECT_EQ(made["missing"].size(), 0U);
  EXPECT_EQ(ask({"verify", "a", "--sha256", seal, "--against", "d/tanyard.sherds"})["damage"].size(), 0U);
  // FIPS 180-4 by another hand: the checksums are those of coreutils.
  EXPECT_THAT(shell("cd a && sha256sum --quiet -c manifest-sha256.txt"), testing::IsEmpty());
  EXPECT_EQ(shell("sha256sum a/manifest-sha256.txt").substr(0, 64), seal);

  const std::string sherds = read("a/tables/sherds.csv");
  const std::size_t row = sherds.find("\n10001,");
  ASSERT_NE(row, std::string::npos);
  write("a/tables/sherds.csv", sherds.substr(0, row + 1) + "9" + sherds.substr(row + 2));
  const auto found = ask({"verify", "a"}, 1);
  EXPECT_EQ(found["ok"], false);
  EXPECT_EQ(found["files"], nlohmann::json::parse(R"([{"path":"tables/sherds.csv","what":"changed"}])"));
  EXPECT_EQ(ask({"restore", "a", "again.sherds"}, 1)["errors"][0]["code"], "damaged_archive");
  EXPECT_FALSE(fs::exists(path("again.sherds")));

  write("a/tables/sherds.csv", sherds);
  EXPECT_EQ(ask({"verify", "a"})["ok"], true);
}

TEST_F(Archive, made_twice_is_the_same_and_read_back_gives_the_same_record) {
  ask({"demo", "d"});
  ask({"archive", "d/tanyard.sherds", "a"});
  ask({"archive", "d/tanyard.sherds", "b"});
  EXPECT_THAT(shell("diff -r a b"), testing::IsEmpty());
  ask({"restore", "a", "again.sherds"});
  EXPECT_EQ(ask({"verify", "again.sherds"})["damage"].size(), 0U);
  EXPECT_EQ(ask({"history", "again.sherds"})["changes"], ask({"history", "d/tanyard.sherds"})["changes"]);
  const auto tally = [&](const std::string& store) { return ask({"tally", store, "--by", "fabric,context"}); };
  EXPECT_EQ(tally("again.sherds")["rows"], tally("d/tanyard.sherds")["rows"]);
  // The archive of what was read back is the archive once more.
  ask({"archive", "again.sherds", "c"});
  EXPECT_THAT(shell("diff -r a c"), testing::IsEmpty());
  // And what was done last can be taken back in it.
  const auto last = ask({"history", "again.sherds"})["changes"].back()["seq"].get<int>();
  EXPECT_EQ(ask({"undo", "again.sherds", std::to_string(last)})["ok"], true);
}

TEST_F(Archive, goes_into_a_zip_file_that_others_can_unpack) {
  make_small_store("x.sherds");
  ask({"archive", "x.sherds", "x.zip"});
  ask({"archive", "x.sherds", "y.zip"});
  EXPECT_EQ(read("x.zip"), read("y.zip"));
  shell("unzip -q x.zip -d out && cd out/X && sha256sum --quiet -c manifest-sha256.txt");
  EXPECT_EQ(ask({"verify", "x.zip"})["ok"], true);
  ask({"restore", "x.zip", "again.sherds"});
  EXPECT_EQ(ask({"history", "again.sherds"})["changes"], ask({"history", "x.sherds"})["changes"]);
  EXPECT_EQ(ask({"archive", "x.sherds", "x.zip"}, 1)["errors"][0]["code"], "folder_in_use");
  write("no.zip", "PK? no");
  EXPECT_EQ(ask({"verify", "no.zip"}, 1)["errors"][0]["code"], "damaged_file");
}

TEST_F(Archive, is_refused_where_it_cannot_be_and_leaves_nothing) {
  make_small_store("x.sherds");
  fs::create_directory(path("full"));
  write("full/letter.txt", "mine");
  const auto refused = ask({"archive", "x.sherds", "full"}, 1);
  EXPECT_EQ(refused["errors"][0]["code"], "folder_in_use");
  EXPECT_EQ(refused["errors"][0]["message"], "the folder full is not empty: it holds letter.txt");
  EXPECT_EQ(ask({"archive", "x.sherds", "/proc/none/a"}, 1)["errors"][0]["code"], "not_writable");
  // No file may grow beyond 40 blocks of 1 KB: as on a disk without room.
  fs::create_directory(path("small"));
  const std::string limited = "ulimit -f 40; " + quoted(fs::absolute(std::getenv("SHERDWRIGHT")).string()) +
                              " archive x.sherds small/a --json; test $? -ne 0";
  shell("trap '' XFSZ; (" + limited + ")");
  EXPECT_TRUE(fs::is_empty(path("small")));
}

TEST_F(Archive, labels_carry_codes_that_another_program_reads) {
  ask({"demo", "d"});
  // A few labels at a time: a picture full of codes is more than the reader finds at once.
  for (const char* of : {"bags", "boxes"}) {
    for (const char* box : {"1", "2", "3", "8"}) {
      const auto printed = ask({"labels", "d/tanyard.sherds", "--of", of, "--box", box, "--out", "l.png"});
      const std::string said = shell("zbarimg --quiet --raw -Sdisable -Sqrcode.enable l.png 2>/dev/null");
      for (const std::string code : printed["codes"]) EXPECT_THAT("\n" + said, testing::HasSubstr("\n" + code + "\n"));
    }
  }
  ask({"labels", "d/tanyard.sherds", "--of", "slips", "--box", "2", "--out", "l.png"});
  EXPECT_THAT(shell("zbarimg --quiet --raw -Sdisable -Sqrcode.enable l.png 2>/dev/null"),
              testing::HasSubstr("SAL26:loan:L4"));
  const auto pdf = ask({"labels", "d/tanyard.sherds", "--of", "bags", "--out", "l.pdf"});
  std::size_t pages = 0;
  const std::string bytes = read("l.pdf");
  for (std::size_t at = bytes.find("/MediaBox"); at != std::string::npos; at = bytes.find("/MediaBox", at + 1)) ++pages;
  EXPECT_GE(pages, pdf["sheets"].get<std::size_t>());
  // ISO 216: A4 is 210 by 297 mm, 595.276 by 841.890 points.
  EXPECT_THAT(bytes, testing::HasSubstr("595.27"));
}

TEST_F(Archive, the_deposit_check_of_the_demo_names_what_is_out_and_the_box_that_is_too_heavy) {
  ask({"demo", "d"});
  const auto deposit = ask({"deposit", "d/tanyard.sherds", "--on", "2026-07-01"}, 1);
  EXPECT_EQ(deposit["ready"], false);
  std::vector<std::string> codes;
  for (const auto& finding : deposit["findings"]) codes.push_back(finding["code"]);
  EXPECT_THAT(codes, testing::Contains("not_back"));
  EXPECT_THAT(codes, testing::Contains("overdue"));
  EXPECT_THAT(codes, testing::Contains("box_over_limit"));
  const auto selection = ask({"selection", "d/tanyard.sherds"});
  EXPECT_EQ(selection["reconciles"], true);
  EXPECT_GT(selection["total"]["deselected"].get<int>(), 0);
  // What the planted mistakes moved to other contexts has no decision.
  EXPECT_EQ(selection["total"]["recorded"].get<int>(), selection["total"]["kept"].get<int>() +
                                                           selection["total"]["deselected"].get<int>() +
                                                           selection["total"]["undecided"].get<int>());
  const auto tally = ask({"tally", "d/tanyard.sherds", "--by", "context"});
  EXPECT_EQ(selection["total"]["recorded"], tally["total"]["count"]);
  ask({"boxes", "d/tanyard.sherds", "--out", "boxes.html"});
  EXPECT_THAT(read("boxes.html"), testing::HasSubstr("over the limit"));
}

}  // namespace
}  // namespace sherd::tests
