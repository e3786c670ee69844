#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <string>
#include <system_error>

#include "desk/frame/disk.h"

namespace sherd::http::testing {

/// A store on the disk with two contexts and three lines.
class StoreOnDisk : public ::testing::Test {
 protected:
  void SetUp() override;
  void TearDown() override {
    std::error_code ignored;  // whoever still reads the store may take its files away at the same time
    std::filesystem::remove_all(folder_, ignored);
  }
  void import(const std::string& kind, const std::string& table);

  std::filesystem::path folder_;
  std::string store_;
  desk::DiskFiles files_;
  desk::Environment environment_;
};

}  // namespace sherd::http::testing
