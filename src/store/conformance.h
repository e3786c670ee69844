#pragma once

#include <functional>
#include <memory>
#include <ostream>

#include "store/postgres_fixture.h"
#include "store/testing.h"

/// The suite that every kind of store passes. A kind joins by a row in store_kinds.
namespace sherd::store {

/// Where a test's store is; it goes when the test ends.
struct TestPlace {
  TestFolder folder;
  std::vector<std::unique_ptr<TestDatabase>> databases;
};

struct StoreKind {
  std::string name;
  /// The address of a store that is not there yet; "" for one in memory.
  std::function<std::string(TestPlace&)> address;
  bool on_server = false;
};

inline void PrintTo(const StoreKind& kind, std::ostream* out) { *out << kind.name; }

inline const std::vector<StoreKind>& store_kinds() {
  static const std::vector<StoreKind> kKinds{
      {"file", [](TestPlace& place) { return place.folder.file("tanyard.sherds"); }},
      {"memory", [](TestPlace&) { return std::string(); }},
      {"postgresql",
       [](TestPlace& place) {
         place.databases.push_back(std::make_unique<TestDatabase>());
         return place.databases.back()->address();
       },
       true},
  };
  return kKinds;
}

/// Those that several can open at a time.
inline std::vector<StoreKind> shared_kinds() { return {store_kinds().front(), store_kinds().back()}; }

/// An empty store with the site SAL26 (change 1).
class Conformance : public testing::TestWithParam<StoreKind> {
 protected:
  void SetUp() override {
    if (GetParam().on_server && test_server().empty()) GTEST_SKIP() << kNoServer;
    address_ = GetParam().address(place_);
    auto made = address_.empty() ? in_memory() : create(address_);
    ASSERT_TRUE(made.has_value()) << made.error().message;
    store_ = std::move(*made);
    put_site(*store_, "SAL26");
  }
  Store& store() { return *store_; }

  TestPlace place_;
  TestFolder& folder_ = place_.folder;
  std::string address_;
  std::unique_ptr<Store> store_;
};

inline std::string kind_name(const testing::TestParamInfo<StoreKind>& info) { return info.param.name; }

#define SHERD_ON_EVERY_STORE(suite) INSTANTIATE_TEST_SUITE_P(stores, suite, testing::ValuesIn(store_kinds()), kind_name)
#define SHERD_ON_SHARED_STORES(suite) \
  INSTANTIATE_TEST_SUITE_P(stores, suite, testing::ValuesIn(shared_kinds()), kind_name)

}  // namespace sherd::store
