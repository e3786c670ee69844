#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "methods/stratigraphy/sequence.h"
#include "methods/stratigraphy/simulated_testing.h"

namespace sherd::stratigraphy {
namespace {

/// What JAGS 4.3.1, a general-purpose sampler, found on the same likelihoods, order and limits:
/// `bench/sequence_jags/run --expected`, which stands beside the file, made it. Columns: date, mean, median, sd,
/// effective.
std::vector<std::vector<std::string>> expected() {
  std::ifstream file(SHERD_SOURCE_DIR "/bench/sequence_jags/expected_60.csv");
  std::vector<std::vector<std::string>> out;
  for (std::string line; std::getline(file, line);) {
    std::vector<std::string> cells;
    std::stringstream text(line);
    for (std::string cell; std::getline(text, cell, ',');) cells.push_back(cell);
    if (cells.size() == 5 && cells[0] != "date") out.push_back(std::move(cells));
  }
  return out;
}

TEST(DateInSequence, medians_agree_with_those_of_a_general_purpose_sampler) {
  SequenceSettings settings;
  settings.influence = false;
  settings.ordered_ways = false;  // as the model of that sampler weighs a stretch
  settings.least_effective = 2000;
  settings.threads = 2;
  NoProgress quiet;
  const auto out = date_in_sequence(site_for_comparison(60, Deposit::unknown).input, settings, quiet);
  ASSERT_TRUE(out) << out.error().message;
  ASSERT_TRUE(out->sampler.converged);
  const auto rows = expected();
  ASSERT_EQ(rows.size(), 62U);  // contexts, start and end
  for (const auto& row : rows) {
    const bool limit = row[0] == "alpha" || row[0] == "beta";
    const DateSummary& found = row[0] == "alpha"  ? out->phases[0].start
                               : row[0] == "beta" ? out->phases[0].finish
                                                  : out->contexts[std::stoul(row[0]) - 1].completed;
    ASSERT_TRUE(found.median);
    // The standard error of a median is about 1.25 that of a mean (that of a normal distribution); the other sampler's
    // effective draws and ours, which are 2000 or more; medians are whole years.
    const double sd = std::stod(row[3]);
    const double error = 1.25 * sd * std::sqrt(1 / std::stod(row[4]) + 1.0 / 2000);
    EXPECT_NEAR(static_cast<double>(found.median->value), std::stod(row[2]), 4 * error + 1)
        << row[0] << (limit ? "" : " of 60");
  }
}

}  // namespace
}  // namespace sherd::stratigraphy
