#include <linux/magic.h>

#include <algorithm>
#include <chrono>
#include <fstream>

#include "store/sqlite_dialect.h"
#include "store/sqlite_file.h"
#include "store/sqlite_fixture.h"

namespace sherd::store {
namespace {

class SqliteStore : public SqliteFixture {};
using Texts = std::vector<std::string>;

void write_file(const std::string& path, std::string_view bytes) { std::ofstream(path, std::ios::binary) << bytes; }

std::string file_bytes(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST_F(SqliteStore, is_one_file_when_closed) {
  store_.reset();
  EXPECT_EQ(folder_.names(), Texts{"tanyard.sherds"});
  store_ = must(open(path_));
  EXPECT_EQ(fabrics(store()), (Texts{"grey-1", "shell-3"}));
  EXPECT_EQ(store().warnings(), Texts{});
}

TEST_F(SqliteStore, never_overwrites_a_file) {
  EXPECT_EQ(code_of(create(path_)), "store_exists");
  EXPECT_EQ(create(path_).error().message, path_ + " is there already");
  EXPECT_EQ(code_of(store().backup(path_)), "store_exists");
  write_file(file("letter.txt"), "Dear Ann");
  EXPECT_EQ(code_of(create(file("letter.txt"))), "store_exists");
  EXPECT_EQ(code_of(store().backup(file("letter.txt"))), "store_exists");
  EXPECT_EQ(file_bytes(file("letter.txt")), "Dear Ann");
}

TEST_F(SqliteStore, names_with_blanks_quotes_and_signs_are_files_like_others) {
  for (const std::string name :
       {"a b.sherds", "it's \"so\".sherds", "50%=?#&.sherds", "db=x timeout=1", "t\xC3\xB6pf"}) {
    auto made = must(create(file(name)));
    put_site(*made, "QUAY9");
    made.reset();
    EXPECT_TRUE(file_exists(file(name))) << name;
    EXPECT_EQ(must(must(open(file(name)))->sites()).size(), 1U) << name;
    EXPECT_TRUE(must(must(open(file(name)))->verify()).empty());
  }
}

TEST_F(SqliteStore, what_is_not_a_store_is_told_apart) {
  EXPECT_EQ(code_of(open(file("nothing.sherds"))), "no_store");
  EXPECT_EQ(code_of(open(file("no/folder.sherds"))), "no_store");
  EXPECT_EQ(code_of(create(file("no/folder.sherds"))), "no_folder");
  std::filesystem::create_directory(file("folder"));
  EXPECT_EQ(code_of(open(file("folder"))), "not_a_store");
  write_file(file("empty"), "");
  EXPECT_EQ(code_of(open(file("empty"))), "not_a_store");
  write_file(file("short"), "record");
  EXPECT_EQ(code_of(open(file("short"))), "not_a_store");
  write_file(file("table.csv"), "record,context\n" + std::string(5000, 'x'));
  EXPECT_EQ(code_of(open(file("table.csv"))), "not_a_store");
  EXPECT_EQ(open(file("table.csv")).error().message, file("table.csv") + " is not a store");
  {
    auto foreign = must(connect_new_sqlite(file("foreign.db"), {}));
    must(guarded(*foreign, [&]() -> Result<void> {
      Table none;
      foreign->fetch("pragma application_id = 7", {}, none);
      return {};
    }));
  }
  EXPECT_EQ(code_of(open(file("foreign.db"))), "not_a_store");
  EXPECT_EQ(code_of(restore(file("table.csv"), file("new.sherds"))), "not_a_store");
  EXPECT_EQ(code_of(restore(file("nothing"), file("new.sherds"))), "no_store");
}

TEST_F(SqliteStore, a_backup_is_made_while_another_writes) {
  auto other = must(open(path_));
  auto writing = must(other->begin(note("b")));
  must(writing->insert("SAL26", table_of(Kind::fabrics, {"fabric"}, {{"sand-2"}})));
  must(store().backup(file("backup")));
  must(writing->commit());
  auto copy = must(open(file("backup")));
  EXPECT_EQ(fabrics(*copy), (Texts{"grey-1", "shell-3"}));
  EXPECT_EQ(must(copy->verify()), Texts{});
  EXPECT_EQ(fabrics(store()).size(), 3U);
}

TEST_F(SqliteStore, a_backup_needs_nothing_beside_it_and_is_restored_whole) {
  must(store().backup(file("backup")));
  store_.reset();
  EXPECT_EQ(folder_.names().size(), 2U);
  const std::string before = file_bytes(file("backup"));
  EXPECT_EQ(code_of(restore(file("backup"), path_)), "store_exists");
  must(restore(file("backup"), file("again.sherds")));
  EXPECT_EQ(file_bytes(file("backup")), before);
  auto again = must(open(file("again.sherds")));
  EXPECT_EQ(fabrics(*again), (Texts{"grey-1", "shell-3"}));
  EXPECT_EQ(must(again->changes(0)).size(), 2U);
}

TEST_F(SqliteStore, a_store_in_memory_is_backed_up_to_a_file) {
  auto memory = must(in_memory());
  put_site(*memory, "SAL26");
  must(memory->backup(file("from-memory")));
  EXPECT_EQ(must(must(open(file("from-memory")))->sites()).size(), 1U);
}

/// A store of many pages, closed.
std::string large_store(const TestFolder& folder) {
  const std::string path = folder.file("large.sherds");
  auto store = must(create(path));
  put_site(*store, "SAL26");
  Table rows(Kind::contexts);
  rows.add("context", CellType::text);
  rows.add("notes", CellType::text);
  for (int i = 0; i < 3000; ++i) {
    rows.columns()[0].push_text(std::to_string(i));
    rows.columns()[1].push_text(std::string(200, 'n') + std::to_string(i));
  }
  insert(*store, "large", rows);
  return path;
}

TEST_F(SqliteStore, flipped_bytes_in_the_middle_are_found) {
  const std::string path = large_store(folder_);
  std::string bytes = file_bytes(path);
  const std::size_t middle = bytes.find(std::string(200, 'n') + "1500") / 4096 * 4096;  // a page of the contexts
  ASSERT_LT(middle + 4096, bytes.size());
  for (std::size_t i = 0; i < 4096; ++i) bytes[middle + i] = static_cast<char>(~bytes[middle + i]);
  write_file(path, bytes);
  auto damaged = must(open(path));
  EXPECT_FALSE(must(damaged->verify()).empty());
  const auto rows = damaged->read({"SAL26", Kind::contexts, {}, {}});
  ASSERT_EQ(code_of(rows), "damaged_store");
  EXPECT_EQ(rows.error().hint, "Restore the last backup: sherdwright restore BACKUP NEW-STORE");
  EXPECT_EQ(code_of(damaged->backup(file("backup"))), "damaged_store");
  EXPECT_FALSE(file_exists(file("backup"))) << "a damaged copy is not kept";
  damaged.reset();
  EXPECT_EQ(code_of(restore(path, file("restored"))), "damaged_store");
  EXPECT_FALSE(file_exists(file("restored")));
  for (const std::string& name : folder_.names()) EXPECT_EQ(name.find(".part"), std::string::npos) << name;
}

std::string one_value(Dialect& dialect, const std::string& query) {
  Table rows;
  rows.add("value", CellType::text);
  must(guarded(dialect, [&]() -> Result<void> {
    dialect.fetch(query, {}, rows);
    return {};
  }));
  return rows.rows() == 0 ? "" : cells(rows)[0];
}

TEST_F(SqliteStore, keeps_what_it_commits_and_checks_what_refers) {
  auto dialect = must(connect_sqlite(path_, {}));
  EXPECT_EQ(one_value(*dialect, "pragma journal_mode"), "wal");
  EXPECT_EQ(one_value(*dialect, "pragma synchronous"), "2") << "full";
  EXPECT_EQ(one_value(*dialect, "pragma foreign_keys"), "1");
  EXPECT_EQ(one_value(*dialect, "pragma trusted_schema"), "0");
}

TEST_F(SqliteStore, a_row_of_a_site_that_is_not_there_is_found_and_not_backed_up) {
  {
    auto dialect = must(connect_sqlite(path_, {}));
    one_value(*dialect, "pragma foreign_keys = off");
    one_value(*dialect, "insert into fabrics (uid, site, from_change) values ('x', 77, 1)");
  }
  EXPECT_EQ(must(store().verify()), (Texts{"row 3 of fabrics names a site that is not there",
                                           "change 1 (test): what it wrote to fabrics is not what is there"}));
  const auto refused = store().backup(file("backup"));
  ASSERT_EQ(code_of(refused), "damaged_store");
  EXPECT_FALSE(file_exists(file("backup")));
  EXPECT_EQ(code_of(restore(path_, file("restored"))), "damaged_store");
}

TEST_F(SqliteStore, a_file_cut_short_is_damaged) {
  const std::string path = large_store(folder_);
  const auto size = std::filesystem::file_size(path);
  for (const auto kept : {size - 1, size / 2, std::uintmax_t{4096}, std::uintmax_t{100}}) {
    std::filesystem::resize_file(path, kept);
    EXPECT_EQ(code_of(open(path)), "damaged_store") << kept;
    EXPECT_EQ(code_of(restore(path, file("restored"))), "damaged_store") << kept;
  }
}

TEST_F(SqliteStore, a_store_left_without_closing_is_whole_and_says_so) {
  // As a power cut leaves it: the file and its log, and no process that has them open.
  std::filesystem::copy(path_, file("left.sherds"));
  std::filesystem::copy(path_ + "-wal", file("left.sherds-wal"));
  auto left = must(open(file("left.sherds")));
  EXPECT_EQ(fabrics(*left), (Texts{"grey-1", "shell-3"}));
  ASSERT_EQ(left->warnings().size(), 1U);
  EXPECT_TRUE(left->warnings()[0].starts_with(file("left.sherds") + " was not closed properly last time"));
  left.reset();
  EXPECT_EQ(must(open(file("left.sherds")))->warnings(), Texts{});
}

TEST_F(SqliteStore, a_log_without_its_store_is_named) {
  std::filesystem::copy(path_ + "-wal", file("gone.sherds-wal"));
  const auto gone = open(file("gone.sherds"));
  ASSERT_EQ(code_of(gone), "no_store");
  EXPECT_NE(gone.error().hint.find("gone.sherds-wal"), std::string::npos);
  EXPECT_EQ(code_of(create(file("gone.sherds"))), "orphan_log");
  EXPECT_EQ(code_of(restore(path_, file("gone.sherds"))), "orphan_log");
  EXPECT_TRUE(file_exists(file("gone.sherds-wal")));
}

TEST(SqliteFile, network_file_systems_are_known) {
  // Numbers of the kernel's own header linux/magic.h; CIFS and SMB2 as in the manual page statfs(2).
  for (const std::int64_t magic :
       {std::int64_t{NFS_SUPER_MAGIC}, std::int64_t{SMB_SUPER_MAGIC}, std::int64_t{0xFF534D42},
        std::int64_t{0xFE534D42}, std::int64_t{AFS_SUPER_MAGIC}, std::int64_t{AFS_FS_MAGIC},
        std::int64_t{OCFS2_SUPER_MAGIC}, std::int64_t{V9FS_MAGIC}}) {
    EXPECT_TRUE(is_network_file_system(magic)) << magic;
  }
  EXPECT_TRUE(is_network_file_system(static_cast<std::int32_t>(0xFF534D42))) << "as a 32-bit system gives it";
  EXPECT_FALSE(is_network_file_system(FUSE_SUPER_MAGIC)) << "that is told by the type of the mount";
  for (const std::int64_t magic : {EXT4_SUPER_MAGIC, TMPFS_MAGIC, MSDOS_SUPER_MAGIC, OVERLAYFS_SUPER_MAGIC}) {
    EXPECT_FALSE(is_network_file_system(magic)) << magic;
  }
}

TEST(SqliteFile, what_a_program_mounts_is_told_by_its_type) {
  // The first line is the example of the manual page proc_pid_mountinfo(5).
  constexpr std::string_view kMounts =
      "36 35 98:0 /mnt1 /mnt2 rw,noatime master:1 - ext3 /dev/root rw,errors=continue\n"
      "40 35 0:51 / /home/ann/far rw,nosuid shared:7 master:3 - fuse.sshfs ann@far:/ rw\n"
      "41 35 0:5 / /media/stick rw - fuseblk /dev/sdb1 rw\n";
  EXPECT_EQ(mount_type(kMounts, 98, 0), "ext3");
  EXPECT_EQ(mount_type(kMounts, 0, 51), "fuse.sshfs");
  EXPECT_EQ(mount_type(kMounts, 0, 5), "fuseblk");
  EXPECT_EQ(mount_type(kMounts, 1, 5), "");
  EXPECT_EQ(mount_type("36 35 98:0 / / rw -\n\nx", 98, 0), "") << "a line cut short";
  for (const char* type : {"fuse.sshfs", "fuse.rclone", "fuse", "virtiofs"}) EXPECT_TRUE(may_be_network(type)) << type;
  for (const char* type : {"fuseblk", "fuse.gocryptfs", "ext3", ""}) EXPECT_FALSE(may_be_network(type)) << type;
}

/// As a killed program leaves it, so long ago.
void leave(const std::string& path, std::string_view bytes, std::chrono::hours age) {
  write_file(path, bytes);
  std::filesystem::last_write_time(path, std::filesystem::file_time_type::clock::now() - age);
}

TEST_F(SqliteStore, what_killed_programs_left_goes_after_a_day) {
  using std::chrono::hours;
  store_.reset();
  const std::string ours = file_bytes(path_);
  const std::string journal_only(200, '\0');
  leave(file("tanyard-1.part-4000000"), ours, hours(25));
  leave(file("tanyard-1.part-4000000-journal"), "x", hours(25));
  leave(file("tanyard.sherds.new-4000001-2"), "", hours(25));
  leave(file("b.part-4000002"), journal_only, hours(25));
  leave(file("b.part-4000002-journal"), "x", hours(25));
  leave(file("young.part-4000000"), ours, hours(23));
  leave(file("photos.zip.part-1"), "PK" + std::string(500, 'x'), hours(999));
  leave(file("blank.part-1"), journal_only, hours(999));
  leave(file("old.sherds"), ours, hours(999));
  leave(file("notes.part-one"), "", hours(999));
  must(open(path_))->backup(file("backup"));
  Texts left = folder_.names();
  std::ranges::sort(left);
  EXPECT_EQ(left, (Texts{"backup", "blank.part-1", "notes.part-one", "old.sherds", "photos.zip.part-1",
                         "tanyard.sherds", "young.part-4000000"}));
  leave(file("young.part-4000000"), ours, hours(25));
  must(create(file("another.sherds")));
  EXPECT_FALSE(file_exists(file("young.part-4000000")));
}

TEST_F(SqliteStore, a_new_one_is_whole_in_its_file_alone) {
  const std::string path = file("new.sherds");
  auto made = must(create(path));
  std::filesystem::copy(path, file("alone.sherds"));
  EXPECT_EQ(must(must(open(file("alone.sherds")))->verify()), Texts{});
}

TEST_F(SqliteStore, a_quoted_name_that_is_no_column_is_no_text) {
  auto dialect = must(connect_sqlite(path_, {}));
  Table rows;
  rows.add("value", CellType::text);
  const auto refused = guarded(*dialect, [&]() -> Result<void> {
    dialect->fetch("select \"no_such_column\" from fabrics", {}, rows);
    return {};
  });
  EXPECT_EQ(code_of(refused), "store_error");
}

}  // namespace
}  // namespace sherd::store
