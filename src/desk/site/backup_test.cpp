#include "desk/site/backup.h"

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <fstream>

#include "desk/frame/disk.h"
#include "desk/frame/testing.h"
#include "desk/site/history.h"
#include "desk/site/new_site.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

namespace fs = std::filesystem;
using Names = std::vector<std::string>;

/// A store in a folder of its own, on the disk, with the clock in the test's hand.
class Backups : public testing::Test {
 protected:
  Backups() {
    std::string pattern = (fs::temp_directory_path() / "sherd-backups-XXXXXX").string();
    folder_ = mkdtemp(pattern.data());
    store_ = (folder_ / "tanyard.sherds").string();
    environment_.version = "1.2.3";
    environment_.user = "recorder";
    environment_.now = [this] { return now_; };
    environment_.new_uid = random_uid;
    environment_.files = &files_;
    environment_.create_store = store::create;
    environment_.open_store = store::open;
    environment_.restore_store = store::restore;
    NewRequest request;
    request.store = store_;
    request.site = "SAL26";
    must(make_site(request, environment_, progress_));
  }
  ~Backups() override {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }

  Result<BackupResponse> rotate(std::int64_t keep) { return back_up({store_, kept(), keep}, environment_, progress_); }
  BackupResponse rotate_at(const std::string& now, std::int64_t keep) {
    now_ = now;
    return must(rotate(keep));
  }
  std::string kept(const std::string& name = "") const { return (folder_ / "kept" / name).string(); }
  Names names() const {
    Names found;
    for (const auto& entry : fs::directory_iterator(folder_ / "kept")) found.push_back(entry.path().filename());
    std::ranges::sort(found);
    return found;
  }
  /// Changes a byte in each page, as a failing disk may.
  static void spoil(const std::string& path) {
    std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
    for (std::streamoff at = 4096; at < static_cast<std::streamoff>(fs::file_size(path)); at += 4096) {
      file.seekp(at);
      file.put('\x7f');
    }
  }

  fs::path folder_;
  std::string store_;
  std::string now_ = "2026-11-03T09:15:42Z";
  DiskFiles files_;
  Environment environment_;
  NoProgress progress_;
};

TEST_F(Backups, are_named_by_date_and_time_and_the_oldest_go) {
  EXPECT_EQ(rotate_at("2026-11-03T09:15:42Z", 2).file, kept("tanyard.sherds-20261103-091542"));
  EXPECT_EQ(rotate_at("2026-11-04T09:00:00Z", 2).removed, Names{});
  const BackupResponse third = rotate_at("2026-11-05T09:00:00Z", 2);
  EXPECT_EQ(third.kept, (Names{kept("tanyard.sherds-20261105-090000"), kept("tanyard.sherds-20261104-090000")}));
  EXPECT_EQ(third.removed, Names{kept("tanyard.sherds-20261103-091542")});
  EXPECT_EQ(names(), (Names{"tanyard.sherds-20261104-090000", "tanyard.sherds-20261105-090000"}));
  EXPECT_EQ(third.warnings, Names{});
}

TEST_F(Backups, each_opens_with_what_the_store_held) {
  rotate_at("2026-11-03T09:15:42Z", 3);
  const auto copy = must(store::open(kept("tanyard.sherds-20261103-091542")));
  EXPECT_EQ(must(copy->sites()).size(), 1U);
  EXPECT_EQ(must(copy->changes(0)).size(), 1U);
}

TEST_F(Backups, within_one_second_are_numbered) {
  for (int i = 0; i < 11; ++i) must(rotate(3));
  EXPECT_EQ(names(), (Names{"tanyard.sherds-20261103-091542-10", "tanyard.sherds-20261103-091542-11",
                            "tanyard.sherds-20261103-091542-9"}));
}

TEST_F(Backups, a_clock_that_went_back_costs_no_backup) {
  rotate_at("2026-11-03T09:15:42Z", 1);
  const BackupResponse later = rotate_at("2019-01-01T00:00:00Z", 1);
  EXPECT_EQ(later.file, kept("tanyard.sherds-20261103-091542-2"));
  EXPECT_EQ(later.warnings,
            Names{"the clock stands before the newest backup; " + later.file + " is numbered on from that one"});
  EXPECT_EQ(names(), Names{"tanyard.sherds-20261103-091542-2"});
}

TEST_F(Backups, a_damaged_one_counts_for_nothing_and_the_last_sound_ones_stay) {
  rotate_at("2026-11-01T00:00:00Z", 2);
  rotate_at("2026-11-02T00:00:00Z", 2);
  spoil(kept("tanyard.sherds-20261102-000000"));
  const BackupResponse third = rotate_at("2026-11-03T00:00:00Z", 2);
  EXPECT_EQ(third.damaged, Names{kept("tanyard.sherds-20261102-000000")});
  EXPECT_EQ(third.kept, (Names{kept("tanyard.sherds-20261103-000000"), kept("tanyard.sherds-20261101-000000")}));
  EXPECT_EQ(third.removed, Names{});
  ASSERT_EQ(third.warnings.size(), 1U);
  EXPECT_TRUE(third.warnings[0].starts_with(kept("tanyard.sherds-20261102-000000") + " is damaged"));
}

TEST_F(Backups, one_that_cannot_be_looked_at_is_no_reason_to_remove_others) {
  rotate_at("2026-11-01T00:00:00Z", 2);
  rotate_at("2026-11-02T00:00:00Z", 2);
  environment_.restore_store = [](const std::string&, const std::string&) -> Result<void> {
    return fail("disk_full", "there is no room left on the disk");
  };
  const BackupResponse third = rotate_at("2026-11-03T00:00:00Z", 2);
  EXPECT_EQ(third.removed, Names{});
  EXPECT_EQ(third.warnings.size(), 2U);
  EXPECT_EQ(names().size(), 3U);
}

TEST_F(Backups, a_failed_backup_removes_nothing) {
  rotate_at("2026-11-01T00:00:00Z", 1);
  spoil(store_);
  now_ = "2026-11-02T00:00:00Z";
  EXPECT_EQ(code_of(rotate(1)), "damaged_store");
  EXPECT_EQ(names(), Names{"tanyard.sherds-20261101-000000"});
}

TEST_F(Backups, other_files_in_the_folder_are_left_alone) {
  fs::create_directory(folder_ / "kept");
  const Names others{"other.sherds-20200101-000000", "tanyard.sherds", "tanyard.sherds-20200101",
                     "tanyard.sherds-20200101-000000.txt", "tanyard.sherds-2020010a-000000"};
  for (const std::string& name : others) std::ofstream(folder_ / "kept" / name) << "x";
  fs::create_directory(folder_ / "kept" / "tanyard.sherds-20200101-000000");
  EXPECT_EQ(rotate_at("2026-11-01T00:00:00Z", 1).removed, Names{});
  EXPECT_EQ(names().size(), others.size() + 2);
}

TEST_F(Backups, what_was_cut_off_days_ago_is_swept_away) {
  fs::create_directory(folder_ / "kept");
  const Names left{".tanyard.sherds.trial-0123", "tanyard.sherds-20200101-000000.part-77"};
  for (const std::string& name : {left[0], left[1], left[1] + "-1", std::string("letter.part-77")}) {
    std::ofstream(folder_ / "kept" / name) << "x";
    fs::last_write_time(folder_ / "kept" / name, fs::file_time_type::clock::now() - std::chrono::hours(25));
  }
  std::ofstream(folder_ / "kept" / ".tanyard.sherds.trial-4567") << "at work";
  rotate_at("2026-11-01T00:00:00Z", 1);
  EXPECT_EQ(names(), (Names{".tanyard.sherds.trial-4567", "letter.part-77", "tanyard.sherds-20261101-000000"}));
}

TEST_F(Backups, to_keep_none_is_refused) {
  EXPECT_EQ(code_of(rotate(0)), "bad_keep");
  EXPECT_FALSE(fs::exists(folder_ / "kept"));
}

TEST_F(Backups, without_keep_one_file_is_written_and_never_over_another) {
  const std::string file = (folder_ / "copy.sherds").string();
  EXPECT_EQ(must(back_up({store_, file, {}}, environment_, progress_)).file, file);
  EXPECT_EQ(code_of(back_up({store_, file, {}}, environment_, progress_)), "store_exists");
  const std::string again = (folder_ / "again.sherds").string();
  EXPECT_EQ(must(restore_backup({file, again}, environment_, progress_)).file, again);
  EXPECT_EQ(must(show_history({again, {}, {}}, environment_, progress_)).changes.size(), 1U);
}

}  // namespace
}  // namespace sherd::desk
