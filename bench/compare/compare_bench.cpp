#include <chrono>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <iostream>
#include <string>

#include "base/random.h"
#include "methods/compare/ordination.h"
#include "methods/statistics/clustering.h"
#include "methods/statistics/draws.h"

/// Seconds of three methods on made tables, for bench/compare/run:
///   compare_bench tables DIR    writes ca.csv (2,000 x 300), ward.csv (5,000 x 20), boot.csv (200 x 40)
///   compare_bench times DIR     reads them and prints a name and seconds a line
namespace {

using sherd::Random;
using sherd::statistics::Matrix;

/// Counts of types that come and go along one gradient, as assemblages do.
void write_counts(const std::string& file, std::size_t rows, std::size_t columns, std::uint64_t seed) {
  std::ofstream out(file);
  Random random(seed, 0);
  for (std::size_t i = 0; i < rows; ++i) {
    const double at = static_cast<double>(i) / static_cast<double>(rows);
    std::vector<double> weights, drawn;
    for (std::size_t j = 0; j < columns; ++j) {
      const double far = at - static_cast<double>(j) / static_cast<double>(columns);
      weights.push_back(std::exp(-far * far * 30) + 0.02);
    }
    sherd::statistics::draw_multinomial(200 + random.below(800), weights, random, drawn);
    for (std::size_t j = 0; j < columns; ++j) out << (j == 0 ? "" : ",") << drawn[j];
    out << "\n";
  }
}

void write_points(const std::string& file, std::size_t rows, std::size_t columns, std::uint64_t seed) {
  std::ofstream out(file);
  Random random(seed, 1);
  for (std::size_t i = 0; i < rows; ++i) {
    for (std::size_t j = 0; j < columns; ++j)
      out << (j == 0 ? "" : ",") << random.uniform() + static_cast<double>(i % 7) * (j % 3 == 0 ? 0.2 : 0.05);
    out << "\n";
  }
}

Matrix read(const std::string& file, std::size_t columns) {
  std::ifstream in(file);
  Matrix out(0, columns);
  double value = 0;
  while (in >> value) {
    out.values.push_back(value);
    if (in.peek() == ',') in.get();
  }
  out.rows = out.values.size() / columns;
  return out;
}

sherd::compare::CountTable named(Matrix counts) {
  sherd::compare::CountTable out;
  for (std::size_t i = 0; i < counts.rows; ++i) out.row_labels.push_back("r" + std::to_string(i));
  for (std::size_t j = 0; j < counts.columns; ++j) out.column_labels.push_back("c" + std::to_string(j));
  out.counts = std::move(counts);
  return out;
}

void time_of(const char* name, const std::function<double()>& work) {
  const auto start = std::chrono::steady_clock::now();
  const double kept = work();
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
  std::cout << name << " " << took.count() << " " << kept << "\n";
}

/// A row's pieces drawn anew from its own shares.
Matrix drawn_anew(const Matrix& counts, Random& random) {
  Matrix out(counts.rows, counts.columns);
  std::vector<double> drawn;
  for (std::size_t i = 0; i < counts.rows; ++i) {
    const auto row = counts.row(i);
    sherd::statistics::draw_multinomial(static_cast<std::int64_t>(sherd::statistics::sum_of(row)), row, random, drawn);
    std::copy(drawn.begin(), drawn.end(), out.values.begin() + static_cast<std::ptrdiff_t>(i * counts.columns));
  }
  return out;
}

int times(const std::string& folder) {
  const auto ca = named(read(folder + "/ca.csv", 300));
  const Matrix ward = read(folder + "/ward.csv", 20);
  const auto boot = named(read(folder + "/boot.csv", 40));
  sherd::NoProgress quiet;
  time_of("ca", [&] { return sherd::compare::ordination(ca, {}, quiet)->eigenvalues[0]; });
  time_of("ward", [&] {
    return sherd::statistics::merge_steps(sherd::statistics::euclidean_distances(ward),
                                          sherd::statistics::Linkage::ward)
        .back()
        .height;
  });
  time_of("ordinations", [&] {
    Random random(1, 2);
    double sum = 0;
    for (int k = 0; k < 1000; ++k) sum += sherd::compare::axes_of(drawn_anew(boot.counts, random), 2).eigenvalues[0];
    return sum / 1000;
  });
  time_of("ellipses", [&] {
    sherd::compare::OrdinationSettings settings{.axes = 2, .rows = {}, .columns = {}, .resamples = 1000};
    return sherd::compare::ordination(boot, settings, quiet)->rows[0].ellipse->major;
  });
  return 0;
}

}  // namespace

int main(int count, char** words) {
  const std::string what = count == 3 ? words[1] : "";
  if (what == "tables") {
    const std::string folder = words[2];
    write_counts(folder + "/ca.csv", 2000, 300, 1);
    write_points(folder + "/ward.csv", 5000, 20, 2);
    write_counts(folder + "/boot.csv", 200, 40, 3);
    return 0;
  }
  if (what == "times") return times(words[2]);
  std::cerr << "compare_bench tables|times DIR\n";
  return 2;
}
