#include "desk/frame/kept_columns.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <functional>
#include <thread>

#include "desk/frame/forwarding_store.h"
#include "desk/frame/session.h"
#include "desk/site/import_bench.h"
#include "store/open.h"

namespace sherd::desk {
namespace {

using ::testing::ElementsAre;

/// Counts what is read of the record behind it.
class CountingStore final : public ForwardingStore {
 public:
  CountingStore(Store& inner, std::vector<std::string>& columns) : ForwardingStore(inner), columns_(columns) {}

  Result<Table> read(const ReadRequest& request) override {
    columns_.insert(columns_.end(), request.columns.begin(), request.columns.end());
    Result<Table> table = ForwardingStore::read(request);
    if (between) between();
    return table;
  }

  std::function<void()> between;  ///< called after each read

 private:
  std::vector<std::string>& columns_;
};

class KeptColumnsTest : public ImportBench {
 protected:
  KeptColumnsTest() : ImportBench(store::in_memory()) {
    take("sherds", "record,context,fabric,count,weight_g\n1,1,grey-1,3,14.5\n2,2,green-1,2,20\n");
  }
  Lines read(Store& store, std::vector<std::string> columns, std::optional<std::int64_t> as_of = {}) {
    const Table table = must(store.read({"SAL26", Kind::sherds, std::move(columns), as_of}));
    Lines lines(table.rows());
    for (std::size_t row = 0; row < table.rows(); ++row) {
      for (const Column& column : table.columns()) lines[row] += cell_text(column, row) + "|";
    }
    return lines;
  }

  std::vector<std::string> asked_;
  CountingStore counting_{desk_.store(), asked_};
  std::shared_ptr<KeptColumns> kept_ = std::make_shared<KeptColumns>();
  std::unique_ptr<Store> store_ = keeping(std::make_unique<OpenedStore>(counting_), kept_);
};

TEST_F(KeptColumnsTest, a_column_is_read_once_and_comes_in_the_order_asked_for) {
  EXPECT_EQ(read(*store_, {"fabric", "count"}), (Lines{"grey-1|3|", "green-1|2|"}));
  EXPECT_EQ(read(*store_, {"count", "weight_g", "fabric"}), (Lines{"3|14.5|grey-1|", "2|20|green-1|"}));
  EXPECT_THAT(asked_, ElementsAre("fabric", "count", "weight_g"));
  EXPECT_GT(kept_->bytes(), 0U);
}

TEST_F(KeptColumnsTest, all_columns_are_those_that_the_store_gives) {
  EXPECT_EQ(read(*store_, {}), read(desk_.store(), {}));
  EXPECT_EQ(read(*store_, {}), read(desk_.store(), {}));
  EXPECT_EQ(asked_, kind_spec(Kind::sherds).column_names());
}

TEST_F(KeptColumnsTest, after_a_change_the_record_is_read_anew) {
  read(*store_, {"count"});
  take("sherds", "record,context,fabric,count\n3,1,grey-1,7\n");
  EXPECT_EQ(read(*store_, {"count"}), (Lines{"3|", "2|", "7|"}));
  EXPECT_THAT(asked_, ElementsAre("count", "count"));
}

TEST_F(KeptColumnsTest, a_change_while_the_record_is_read_leaves_nothing_old_behind) {
  counting_.between = [this] {
    counting_.between = {};
    take("sherds", "record,context,fabric,count\n3,1,grey-1,7\n");
  };
  EXPECT_EQ(read(*store_, {"count", "fabric"}), (Lines{"3|grey-1|", "2|green-1|"}));  // as it was when they were read
  EXPECT_EQ(read(*store_, {"count"}), (Lines{"3|", "2|", "7|"}));
  EXPECT_THAT(asked_, ElementsAre("count", "fabric", "count"));
}

TEST_F(KeptColumnsTest, a_change_while_more_columns_are_read_mixes_no_two_states) {
  read(*store_, {"count"});
  counting_.between = [this] {
    counting_.between = {};
    take("sherds", "record,context,fabric,count\n3,1,grey-1,7\n");
  };
  EXPECT_EQ(read(*store_, {"count", "fabric"}), (Lines{"3|grey-1|", "2|green-1|", "7|grey-1|"}));
  EXPECT_THAT(asked_, ElementsAre("count", "fabric", "count", "fabric"));
}

TEST_F(KeptColumnsTest, a_former_state_is_never_taken_for_the_newest) {
  const std::int64_t then = must(desk_.store().newest_change())->seq;
  take("sherds", "record,context,fabric,count\n3,1,grey-1,7\n");
  EXPECT_EQ(read(*store_, {"count"}).size(), 3U);
  EXPECT_EQ(read(*store_, {"count"}, then).size(), 2U);
}

TEST_F(KeptColumnsTest, what_a_change_has_done_so_far_is_seen_by_its_own_store_alone) {
  EXPECT_EQ(read(*store_, {"count"}).size(), 2U);
  auto writing = must(store_->begin(change_note(desk_.environment, "one more")));
  Table rows(Kind::sherds);
  for (const char* name : {"record", "context", "fabric"}) rows.add(name, CellType::text);
  rows.add("count", CellType::count).push_integer(7);
  rows.find("record")->push_text("3");
  rows.find("context")->push_text("1");
  rows.find("fabric")->push_text("grey-1");
  must(writing->insert("SAL26", rows));
  EXPECT_EQ(read(*store_, {"count"}).size(), 3U);
  writing.reset();
  EXPECT_EQ(read(*store_, {"count"}).size(), 2U);
}

TEST_F(KeptColumnsTest, an_unknown_column_is_the_stores_error) {
  const auto table = store_->read({"SAL26", Kind::sherds, {"count", "colour"}, {}});
  EXPECT_EQ(code_of(table), "unknown_column");
}

TEST_F(KeptColumnsTest, no_more_is_kept_than_allowed) {
  const auto little = std::make_shared<KeptColumns>(500);
  const auto store = keeping(std::make_unique<OpenedStore>(counting_), little);
  EXPECT_EQ(read(*store, {"count"}), (Lines{"3|", "2|"}));
  EXPECT_GT(little->bytes(), 0U);
  EXPECT_EQ(read(*store, {}), read(desk_.store(), {}));
  EXPECT_LE(little->bytes(), 500U);
}

TEST_F(KeptColumnsTest, tables_used_long_ago_are_forgotten_first) {
  const auto some = std::make_shared<KeptColumns>(1400);
  const auto store = keeping(std::make_unique<OpenedStore>(counting_), some);
  must(store->read({"SAL26", Kind::contexts, {"context"}, {}}));
  must(store->read({"SAL26", Kind::fabrics, {"fabric"}, {}}));
  must(store->read({"SAL26", Kind::contexts, {"context"}, {}}));
  asked_.clear();
  must(store->read({"SAL26", Kind::sherds, {"record", "fabric"}, {}}));
  must(store->read({"SAL26", Kind::contexts, {"context"}, {}}));
  EXPECT_THAT(asked_, ElementsAre("record", "fabric"));
  must(store->read({"SAL26", Kind::fabrics, {"fabric"}, {}}));
  EXPECT_THAT(asked_, ElementsAre("record", "fabric", "fabric"));
}

/// A store that several threads read, one after the other, by way of the columns kept.
class KeptColumnsOfManyThreads : public ::testing::Test {
 protected:
  KeptColumnsOfManyThreads() {
    environment_.create_store = environment_.open_store = [&](const std::string&) -> Result<std::unique_ptr<Store>> {
      return std::make_unique<OpenedStore>(*inner_);
    };
    environment_.now = [] { return std::string("2026-03-02T09:00:00Z"); };
    environment_.new_uid = [this] { return fmt::format("{:032x}", ++uids_); };
    NoProgress progress;
    must(make_site({.store = "x.sherds", .site = "SAL26", .title = {}}, environment_, progress));
  }

  void change() {
    const auto writing = must(inner_->begin(change_note(environment_, "another title")));
    Site site = must(inner_->sites()).front();
    site.title += "I";
    must(writing->put_site(site));
    must(writing->commit());
  }

  /// Two columns read by so many threads at a time; how many of them were given both.
  int read(int count) {
    std::vector<std::thread> threads;
    std::atomic<int> right = 0;
    for (int i = 0; i < count; ++i) {
      threads.emplace_back([&] {
        ++come_;
        const auto table = kept_.read(counting_, {"SAL26", Kind::sherds, {"count", "fabric"}, {}});
        if (table && table->names() == std::vector<std::string>{"count", "fabric"}) ++right;
      });
    }
    for (std::thread& thread : threads) thread.join();
    return right;
  }

  std::uint64_t uids_ = 0;
  std::unique_ptr<Store> inner_ = must(store::in_memory());
  Environment environment_;
  KeptColumns kept_;
  std::vector<std::string> asked_;
  CountingStore counting_{*inner_, asked_};
  std::atomic<int> come_ = 0;
};

TEST_F(KeptColumnsOfManyThreads, read_a_column_once) {
  EXPECT_EQ(read(8), 8);
  EXPECT_THAT(asked_, ElementsAre("count", "fabric"));
}

TEST_F(KeptColumnsOfManyThreads, share_one_reading_where_changes_come_faster_than_they_read) {
  counting_.between = [this] {
    while (come_ < 8) std::this_thread::yield();
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
    change();
  };
  EXPECT_EQ(read(8), 8);
  EXPECT_LT(asked_.size(), 2U * 8U);
}

}  // namespace
}  // namespace sherd::desk
