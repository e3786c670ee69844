#include "http/store_on_disk.h"

#include "desk/site/import_table.h"
#include "desk/site/new_site.h"
#include "store/open.h"

namespace sherd::http::testing {

void StoreOnDisk::SetUp() {
  folder_ = std::filesystem::path(::testing::TempDir()) / ("http_" + desk::random_uid());
  std::filesystem::create_directories(folder_);
  store_ = (folder_ / "mill.sherds").string();
  environment_.version = "0.0-test";
  environment_.user = "tester";
  environment_.now = desk::utc_now;
  environment_.new_uid = desk::random_uid;
  environment_.files = &files_;
  environment_.create_store = store::create;
  environment_.open_store = store::open;
  environment_.open_feed = store::open_feed;
  NoProgress progress;
  ASSERT_TRUE(desk::make_site({.store = store_, .site = "MILL26", .title = "Mill Close"}, environment_, progress));
  import("contexts", "context,deposit\n101,dump\n102,make_up\n");
  import("sherds", "context,fabric,count,weight_g\n101,grey-1,3,14.5\n101,shell-3,2,20\n102,grey-1,1,3\n");
}

void StoreOnDisk::import(const std::string& kind, const std::string& table) {
  const std::string file = (folder_ / (kind + ".csv")).string();
  ASSERT_TRUE(files_.write(file, table));
  desk::ImportRequest request;
  request.store = store_;
  request.file = file;
  request.as = kind;
  request.new_codes = true;
  NoProgress progress;
  const auto done = desk::import_table(request, environment_, progress);
  ASSERT_TRUE(done) << done.error().message;
  ASSERT_TRUE(done->ok()) << done->errors[0].message;
}

}  // namespace sherd::http::testing
