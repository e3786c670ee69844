#include "demo/clay.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "demo/generate.h"

namespace sherd::demo {
namespace {

const ClayBook& book() {
  static const ClayBook kBook = [] {
    auto site = generate(7);
    EXPECT_TRUE(site.has_value());
    return site->clay;
  }();
  return kBook;
}

std::size_t column(const std::vector<std::vector<std::string>>& rows, const std::string& name) {
  const auto at = std::ranges::find(rows.front(), name);
  EXPECT_NE(at, rows.front().end()) << name;
  return static_cast<std::size_t>(at - rows.front().begin());
}

TEST(Clay, every_sample_read_has_its_truth_and_every_table_is_even) {
  std::set<std::string> truth;
  for (std::size_t r = 1; r < book().truth.size(); ++r) truth.insert(book().truth[r][0]);
  std::set<std::string> standards;
  for (std::size_t r = 1; r < book().standards.size(); ++r) standards.insert(book().standards[r][0]);
  const std::size_t sample = column(book().readings, "Sample ID");
  for (std::size_t r = 1; r < book().readings.size(); ++r) {
    const std::string& id = book().readings[r][sample];
    EXPECT_TRUE(truth.contains(id) || standards.contains(id)) << id;
  }
  for (const auto* table : {&book().standards, &book().certified, &book().sources, &book().samples, &book().petrology,
                            &book().point_counts, &book().readings, &book().truth}) {
    ASSERT_GT(table->size(), 1U);
    for (const auto& row : *table) EXPECT_EQ(row.size(), table->front().size());
  }
}

TEST(Clay, the_check_standard_is_read_all_along_and_its_iron_fades) {
  const std::size_t sample = column(book().readings, "Sample ID");
  const std::size_t iron = column(book().readings, "Fe (%)");
  std::vector<double> readings;
  for (std::size_t r = 1; r < book().readings.size(); ++r) {
    if (book().readings[r][sample] == "check-brick") readings.push_back(std::stod(book().readings[r][iron]));
  }
  ASSERT_GE(readings.size(), 15U);
  const auto mean = [&](std::size_t from) {
    double sum = 0;
    for (std::size_t i = from; i < from + 5; ++i) sum += readings[i] / 5;
    return sum;
  };
  const double fall = mean(readings.size() - 5) / mean(0);
  EXPECT_LT(fall, 0.98);
  EXPECT_GT(fall, 0.93);
}

TEST(Clay, some_amounts_are_below_their_limit_and_none_is_below_zero) {
  std::size_t below = 0;
  for (const auto& row : book().readings) {
    for (const std::string& cell : row) {
      if (cell == "<LOD") ++below;
      EXPECT_FALSE(cell.starts_with('-')) << cell;
    }
  }
  EXPECT_GT(below, 10U);
}

TEST(Clay, points_of_a_section_come_to_three_hundred) {
  std::map<std::string, int> sums;
  for (std::size_t r = 1; r < book().point_counts.size(); ++r)
    sums[book().point_counts[r][0]] += std::stoi(book().point_counts[r][2]);
  for (const auto& [section, sum] : sums) EXPECT_EQ(sum, 300) << section;
}

TEST(Clay, two_of_ten_sherds_of_a_fabric_are_of_another_clay) {
  std::map<std::string, std::set<std::string>> sources;
  std::map<std::string, std::string> truth;
  for (std::size_t r = 1; r < book().truth.size(); ++r) truth[book().truth[r][0]] = book().truth[r][1];
  std::set<std::string> known;
  for (std::size_t r = 1; r < book().sources.size(); ++r) known.insert(book().sources[r][0]);
  EXPECT_EQ(known.size(), 3U);
  EXPECT_EQ(truth.at("t-99"), "elsewhere");
  EXPECT_EQ(std::ranges::count_if(truth, [](const auto& each) { return each.first.starts_with("bw-"); }), 18);
}

}  // namespace
}  // namespace sherd::demo
