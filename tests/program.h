#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

/// The program as its users meet it: started, its output read.
namespace sherd::tests {

struct Answer {
  int code = -1;
  std::string out, err;

  nlohmann::json json() const { return nlohmann::json::parse(out); }
};

/// A folder of its own for a test, gone afterwards; the program runs in it.
class Bench : public ::testing::Test {
 protected:
  Bench();
  ~Bench() override;

  Answer run(const std::vector<std::string>& arguments) const;
  /// With --json behind; the document must parse.
  nlohmann::json ask(std::vector<std::string> arguments, int expected_code = 0) const;
  std::string path(const std::string& name) const { return (folder_ / name).string(); }
  void write(const std::string& name, const std::string& bytes) const;
  std::string read(const std::string& name) const;
  /// A store `name` of site X with contexts 1 to 5, two dated fabrics and a form.
  void make_small_store(const std::string& name) const;

  std::filesystem::path folder_;
};

/// The folder of open tables, "" where the machine has none.
std::string open_data();

std::string quoted(const std::string& word);

}  // namespace sherd::tests
