#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <string_view>

#include "base/random.h"
#include "methods/chemistry/cloud.h"
#include "methods/chemistry/components.h"
#include "methods/chemistry/groups.h"
#include "methods/chemistry/membership.h"

// chemistry_bench write SAMPLES.csv POINTS.csv: 5,000 samples of 20 variables in 10 groups, and 10,000 points of 30.
// chemistry_bench time: name, milliseconds (best of several), a figure to compare results by: see bench/chemistry/run.
namespace {

using namespace sherd;
using namespace sherd::chemistry;

constexpr std::size_t kSamples = 5000, kVariables = 20, kGroups = 10, kPoints = 10'000, kWide = 30;

/// Correlated, groups apart.
Prepared samples() {
  Random random(11);
  Prepared out;
  out.values = statistics::Matrix(kSamples, kVariables);
  for (std::size_t i = 0; i < kSamples; ++i) {
    const std::size_t group = i % kGroups;
    const double common = random.normal();
    out.ids.push_back(std::to_string(i));
    out.groups.push_back(std::to_string(group + 1));
    for (std::size_t j = 0; j < kVariables; ++j)
      out.values(i, j) = 0.4 * std::sin(static_cast<double>(group * kVariables + j)) + 0.5 * common + random.normal();
  }
  for (std::size_t j = 0; j < kVariables; ++j) out.about.variables.push_back(std::to_string(j));
  return out;
}

statistics::Matrix points() {
  Random random(12);
  statistics::Matrix out(kPoints, kWide);
  for (std::size_t i = 0; i < kPoints; ++i) {
    const double common = random.normal();
    for (std::size_t j = 0; j < kWide; ++j) out(i, j) = common * std::cos(static_cast<double>(j)) + random.normal();
  }
  return out;
}

void time(const char* name, int times, const std::function<double()>& work) {
  double best = 1e300;
  double check = 0;
  for (int i = 0; i < times; ++i) {
    const auto start = std::chrono::steady_clock::now();
    check = work();
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    best = std::min(best, took.count());
  }
  std::printf("%s,%.3f,%.12g\n", name, best, check);
}

double left_out(const Prepared& table) {
  double sum = 0;
  for (const GroupRows& group : groups_of(table.groups)) {
    auto cloud = Cloud::of(table.values, group.rows);
    for (const std::size_t row : group.rows)
      sum += cloud->left_out(cloud->distance2(table.values.row(row))).probability;
  }
  return sum;
}

double all_groups(const Prepared& table) {
  NoProgress progress;
  const auto found = membership(table, {}, progress);
  double sum = 0;
  for (const SampleMembership& one : found->samples) {
    for (const Candidate& candidate : one.candidates) sum += candidate.probability;
  }
  return sum;
}

int write(const char* samples_file, const char* points_file) {
  const Prepared table = samples();
  std::ofstream first(samples_file);
  first.precision(17);
  for (std::size_t i = 0; i < kSamples; ++i) {
    first << table.groups[i];
    for (const double value : table.values.row(i)) first << ',' << value;
    first << '\n';
  }
  const statistics::Matrix wide = points();
  std::ofstream second(points_file);
  second.precision(17);
  for (std::size_t i = 0; i < kPoints; ++i) {
    for (std::size_t j = 0; j < kWide; ++j) second << (j == 0 ? "" : ",") << wide(i, j);
    second << '\n';
  }
  return first && second ? EXIT_SUCCESS : EXIT_FAILURE;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view what = argc > 1 ? argv[1] : "";
  if (what == "write" && argc == 4) return write(argv[2], argv[3]);
  if (what != "time") {
    std::fputs("Usage: chemistry_bench write SAMPLES POINTS | chemistry_bench time\n", stderr);
    return 2;
  }
  const Prepared table = samples();
  const statistics::Matrix wide = points();
  time("left-out", 9, [&] { return left_out(table); });
  time("membership", 5, [&] { return all_groups(table); });
  time("components", 9, [&] { return principal_axes(wide, false, kWide).eigenvalues[0]; });
  time("components-scaled", 9, [&] { return principal_axes(wide, true, kWide).eigenvalues[0]; });
  return EXIT_SUCCESS;
}
