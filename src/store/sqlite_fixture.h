#pragma once

#include "store/testing.h"

namespace sherd::store {

/// A store in a file, with the site SAL26 (change 1) and two fabrics (change 2).
class SqliteFixture : public testing::Test {
 protected:
  void SetUp() override {
    store_ = must(create(path_));
    put_site(*store_, "SAL26");
    insert(*store_, "a", table_of(Kind::fabrics, {"fabric"}, {{"grey-1"}, {"shell-3"}}));
  }
  Store& store() { return *store_; }
  std::string file(std::string_view name) const { return folder_.file(name); }
  std::vector<std::string> fabrics(Store& in) { return read(in, Kind::fabrics, {"fabric"}); }

  TestFolder folder_;
  std::string path_ = folder_.file("tanyard.sherds");
  std::unique_ptr<Store> store_;
};

}  // namespace sherd::store
