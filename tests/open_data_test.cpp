#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>

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

// Selden 2020 after Perttula 2017 (MIT): 49 Caddo sites, whole vessels of 36 types, the years of each type, and mean
// ceramic dates as published. A mean date says when vessels were made, the model when the last of them were laid down.
TEST_F(OpenData, forty_nine_caddo_sites_are_dated_as_their_published_mean_dates_lead_to_expect) {
  std::map<std::string, double> published;
  std::ifstream means(data_ + "/counts/caddo_published.csv");
  std::string line;
  std::getline(means, line);
  while (std::getline(means, line)) published[cells_of(line)[0]] = std::stod(cells_of(line)[1]);
  std::ifstream years(data_ + "/counts/caddo_type_dates.csv");
  std::string fabrics = "fabric,earliest,latest,reference\n";
  std::getline(years, line);
  while (std::getline(years, line)) {
    const auto cells = cells_of(line);
    fabrics.append(cells[0]).append(",").append(cells[1]).append(",").append(cells[2]).append(",Selden 2020\n");
  }
  std::ifstream counts(data_ + "/counts/caddo_counts.csv");
  std::getline(counts, line);
  const auto types = cells_of(line);
  std::string contexts = "context,deposit\n";
  std::string sherds = "context,fabric,count,vessels\n";
  while (std::getline(counts, line)) {
    const auto cells = cells_of(line);
    contexts.append(cells[0]).append(",unknown\n");
    for (std::size_t i = 1; i < cells.size(); ++i) {
      if (cells[i].empty() || cells[i] == "0" || !fabrics.contains("\n" + types[i] + ",")) continue;
      sherds.append(cells[0]).append(",").append(types[i]).append(",").append(cells[i]).append(",").append(cells[i]);
      sherds.append("\n");
    }
  }
  ask({"new", "c.sherds", "--site", "C"});
  write("contexts.csv", contexts);
  write("fabrics.csv", fabrics);
  write("sherds.csv", sherds);
  for (const char* kind : {"contexts", "fabrics", "sherds"})
    ask({"import", "c.sherds", std::string(kind) + ".csv", "--as", kind});
  const auto answer = ask({"date", "c.sherds", "--limits", "none", "--brief"});
  EXPECT_TRUE(answer["sampler"]["exact"].get<bool>()) << "nothing ties these sites to each other";
  ASSERT_EQ(answer["contexts"].size(), 49U);
  double n = 0;
  double sum_x = 0;
  double sum_y = 0;
  double xx = 0;
  double yy = 0;
  double xy = 0;
  for (const auto& one : answer["contexts"]) {
    const double mean = published.at(one["context"]);
    const double median = one["completed"]["median"];
    EXPECT_GE(one["completed"]["range95"].back()[1].get<double>(), mean) << one["context"];
    ++n;
    sum_x += mean;
    sum_y += median;
    xx += mean * mean;
    yy += median * median;
    xy += mean * median;
  }
  const double r = (xy - sum_x * sum_y / n) / std::sqrt((xx - sum_x * sum_x / n) * (yy - sum_y * sum_y / n));
  EXPECT_GT(r, 0.85) << "0.88 when this was written";
  EXPECT_GT(sum_y / n - sum_x / n, 15) << "vessels outlive their making by 15 years on average";
}

}  // namespace
}  // namespace sherd::tests
