#include <algorithm>
#include <cstdlib>
#include <fstream>

#include "program.h"

/// Whole open tables, where the machine has them; the excerpts that run everywhere stand beside the readers.
namespace sherd::tests {
namespace {

class OpenData : public Bench {
 protected:
  void SetUp() override {
    data_ = open_data();
    if (data_.empty()) GTEST_SKIP() << "the open tables are not on this machine";
  }
  std::string data_;
};

/// A count of the file that shares nothing with the program: quotes and commas by hand.
struct IndependentCount {
  int rows = 0, pottery = 0;
  double sherds = 0, weight = 0;
};

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

IndependentCount count_file(const std::string& path) {
  std::ifstream in(path);
  std::string line;
  std::getline(in, line);
  const std::vector<std::string> names = cells_of(line);
  const auto at = [&](const std::string& name) {
    return static_cast<std::size_t>(std::find(names.begin(), names.end(), name) - names.begin());
  };
  IndependentCount out;
  while (std::getline(in, line)) {
    const std::vector<std::string> cells = cells_of(line);
    ++out.rows;
    if (cells[at("material")] != "K") continue;
    ++out.pottery;
    out.sherds += std::atof(cells[at("count")].c_str());
    out.weight += std::atof(cells[at("weight_g")].c_str());
  }
  return out;
}

// Seidensticker, doctoral thesis Tuebingen, doi 10.15496/publikation-59846; data doi 10.5281/zenodo.6337181
// (CC BY-SA 4.0): 6,155 finds, of them 5,477 rows of pottery, 8,555 sherds, 407,441.7 g.
TEST_F(OpenData, the_pottery_of_the_north_western_congo_basin_counts_as_published) {
  const std::string file = data_ + "/congo/congo_finds.csv";
  const IndependentCount independent = count_file(file);
  EXPECT_EQ(independent.rows, 6155);
  EXPECT_EQ(independent.pottery, 5477);
  ask({"new", "c.sherds", "--site", "NWC"});
  write("map.json", R"({"columns": {"context": {"from": ["site", "feature"]}, "form": "vessel_form",
      "rim_diameter_mm": {"from": "rim_diam_cm", "times": 10}, "base_diameter_mm": {"from": "base_diam_cm", "times": 10}},
      "only": {"material": ["K"]}, "codes": {"part": {"R": "rim", "W": "body", "B": "base", "G": "profile"}},
      "blank_as": {"context": "unstratified", "fabric": "unknown"}})");
  const auto answer =
      ask({"import", "c.sherds", file, "--as", "sherds", "--columns", "map.json", "--new-codes", "--keep-good"});
  EXPECT_EQ(answer["rows_read"], independent.rows);
  EXPECT_EQ(answer["rows_kept"].get<int>() + answer["rows_refused"].get<int>(), independent.pottery);
  EXPECT_EQ(answer["rows_left_out"], independent.rows - independent.pottery);
  for (const auto& problem : answer["problems"])
    EXPECT_EQ(problem["code"], "no_quantity");  // rows without count and weight
  const auto total = ask({"tally", "c.sherds", "--by", "context"})["total"];
  EXPECT_EQ(total["count"], 8555);
  EXPECT_EQ(total["count"].get<double>(), independent.sherds);
  EXPECT_NEAR(total["weight_g"].get<double>(), 407441.7, 1e-6);
  EXPECT_NEAR(total["weight_g"].get<double>(), independent.weight, 1e-6);
  EXPECT_TRUE(total["eve"].is_null());  // no rim percent was recorded
  // Eleven of the fourteen features that the thesis prints agree exactly in count; these three of them by hand.
  const auto sherds = [&](const std::string& context) {
    return ask({"tally", "c.sherds", "--by", "context", "--where", "context=" + context})["total"]["count"].get<int>();
  };
  EXPECT_EQ(sherds("MLB 85/1-3-1"), 305);
  EXPECT_EQ(sherds("BBS 87/1"), 67);
  EXPECT_EQ(sherds("MUN 87/1"), 406);
}

}  // namespace
}  // namespace sherd::tests
