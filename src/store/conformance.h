#pragma once

#include <functional>
#include <ostream>

#include "store/testing.h"

/// The suite that every kind of store passes. A kind joins by a row in kStoreKinds.
namespace sherd::store {

struct StoreKind {
  std::string name;
  std::function<Result<std::unique_ptr<Store>>(const TestFolder&)> make;
};

inline void PrintTo(const StoreKind& kind, std::ostream* out) { *out << kind.name; }

inline const std::vector<StoreKind>& store_kinds() {
  static const std::vector<StoreKind> kKinds{
      {"file", [](const TestFolder& folder) { return create(folder.file("tanyard.sherds")); }},
      {"memory", [](const TestFolder&) { return in_memory(); }},
  };
  return kKinds;
}

/// An empty store with the site SAL26 (change 1).
class Conformance : public testing::TestWithParam<StoreKind> {
 protected:
  void SetUp() override {
    auto made = GetParam().make(folder_);
    ASSERT_TRUE(made.has_value()) << made.error().message;
    store_ = std::move(*made);
    put_site(*store_, "SAL26");
  }
  Store& store() { return *store_; }

  TestFolder folder_;
  std::unique_ptr<Store> store_;
};

inline std::string kind_name(const testing::TestParamInfo<StoreKind>& info) { return info.param.name; }

#define SHERD_ON_EVERY_STORE(suite) INSTANTIATE_TEST_SUITE_P(stores, suite, testing::ValuesIn(store_kinds()), kind_name)

}  // namespace sherd::store
