#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

#include "methods/chemistry/clusters.h"
#include "methods/chemistry/components.h"
#include "methods/chemistry/discriminant.h"
#include "methods/chemistry/means.h"
#include "methods/chemistry/membership.h"
#include "methods/chemistry/prepare.h"
#include "methods/chemistry/variation.h"

// Two open tables worked by the program and by R: make_expected.R names them and wrote the files.
namespace sherd::chemistry {
namespace {

using Table = std::vector<std::vector<std::string>>;

Table read(const std::string& file) {
  std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/tests/chemistry/" + file);
  EXPECT_TRUE(in) << file;
  Table out;
  for (std::string line; std::getline(in, line);) {
    std::istringstream cells(line);
    out.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) out.back().push_back(cell);
  }
  return out;
}
std::vector<std::vector<double>> numbers(const std::string& file) {
  std::vector<std::vector<double>> out;
  for (const auto& line : read(file)) {
    out.emplace_back();
    for (const std::string& cell : line) out.back().push_back(std::stod(cell));
  }
  return out;
}

/// id, group, then parts.
Composition table_of(const std::string& file, const std::vector<std::string>& parts) {
  const Table text = read(file);
  Composition out;
  std::vector<std::size_t> columns;
  for (const std::string& part : parts) {
    out.analytes.push_back({part, Unit::percent});
    columns.push_back(static_cast<std::size_t>(std::ranges::find(text[0], part) - text[0].begin()));
  }
  for (std::size_t row = 1; row < text.size(); ++row) {
    out.ids.push_back(text[row][0]);
    out.groups.push_back(text[row][1]);
    for (const std::size_t column : columns) out.values.values.push_back(std::stod(text[row][column]));
  }
  out.values.rows = out.ids.size();
  out.values.columns = parts.size();
  out.cells.assign(out.values.values.size(), Cell::measured);
  return out;
}

const std::vector<std::string> kMajor{"Na", "Al", "Si", "Ca"};

struct Case {
  std::string name;
  Prepared samples;
};
std::vector<Case> cases() {
  const Composition glass = table_of("glass.csv", kMajor);
  const Composition iris = table_of("iris.csv", {"sepal_length", "sepal_width", "petal_length", "petal_width"});
  return {{"glass", *prepare(glass, {.transform = Transform::none})},
          {"glass-ilr", *prepare(glass, {.transform = Transform::ilr})},
          {"iris", *prepare(iris, {.transform = Transform::none})}};
}

/// Relative, and absolute below 1.
void expect_close(double found, double expected, double within, const std::string& what) {
  EXPECT_NEAR(found, expected, within * std::max(1.0, std::abs(expected))) << what;
}
/// Where an order of labels that starts with capitals or not is R's: as the first letters go.
std::vector<std::string> sorted(std::vector<std::string> labels) {
  std::ranges::sort(labels);
  return labels;
}
std::size_t place(const std::vector<std::string>& labels, const std::string& label) {
  return static_cast<std::size_t>(std::ranges::find(labels, label) - labels.begin());
}

TEST(AgainstR, components_are_those_of_prcomp) {
  for (const Case& one : cases()) {
    const auto found = components(one.samples, {.standardise = true});
    ASSERT_TRUE(found);
    const auto values = numbers(one.name + "-eigenvalues.csv");
    const auto loadings = numbers(one.name + "-loadings.csv");
    const auto scores = numbers(one.name + "-scores.csv");
    ASSERT_EQ(found->eigenvalues.size(), values.size());
    for (std::size_t k = 0; k < values.size(); ++k) {
      expect_close(found->eigenvalues[k], values[k][0], 1e-12, one.name);
      const double turn = found->loadings[0][k] * loadings[0][k] > 0 ? 1 : -1;
      for (std::size_t j = 0; j < values.size(); ++j)
        expect_close(turn * found->loadings[j][k], loadings[j][k], 1e-9, one.name);
      for (std::size_t i = 0; k < 2 && i < scores.size(); ++i)
        expect_close(turn * found->scores[i].values[k], scores[i][k], 1e-9, one.name);
    }
  }
}

TEST(AgainstR, membership_left_out_by_the_closed_form_is_that_of_the_long_way) {
  NoProgress progress;
  for (const Case& one : cases()) {
    const auto found = membership(one.samples, {}, progress);
    ASSERT_TRUE(found);
    std::vector<std::string> labels;
    for (const GroupMembership& group : found->groups) labels.push_back(group.group);
    const std::vector<std::string> columns = sorted(labels);
    const auto expected = numbers(one.name + "-membership.csv");
    ASSERT_EQ(expected.size(), found->samples.size());
    for (std::size_t i = 0; i < expected.size(); ++i) {
      ASSERT_EQ(expected[i].size(), columns.size());
      for (const Candidate& candidate : found->samples[i].candidates) {
        const double p = expected[i][place(columns, candidate.group)];
        // Where P is tiny it is the ratio that counts.
        EXPECT_NEAR(candidate.probability, p, 1e-8 * p + 1e-300) << one.name << " " << found->samples[i].id;
      }
    }
  }
}

TEST(AgainstR, discriminant_functions_and_samples_left_out_are_those_of_MASS) {
  for (const Case& one : cases()) {
    const auto found = discriminant(one.samples, Priors::shares);
    ASSERT_TRUE(found);
    const auto scaling = numbers(one.name + "-lda.csv");
    const auto trace = numbers(one.name + "-trace.csv");
    for (std::size_t k = 0; k < trace.size(); ++k) {
      expect_close(found->trace_share[k], trace[k][0], 1e-10, one.name);
      const double turn = found->coefficients[0][k] * scaling[0][k] > 0 ? 1 : -1;
      for (std::size_t j = 0; j < scaling.size(); ++j)
        expect_close(turn * found->coefficients[j][k], scaling[j][k], 1e-8, one.name);
    }
    const std::vector<std::string> labels = sorted(found->labels);
    const auto put_back = numbers(one.name + "-put-back.csv");
    const auto left_out = numbers(one.name + "-left-out.csv");
    for (std::size_t a = 0; a < labels.size(); ++a) {
      for (std::size_t b = 0; b < labels.size(); ++b) {
        const std::size_t i = place(found->labels, labels[a]);
        const std::size_t j = place(found->labels, labels[b]);
        EXPECT_EQ(static_cast<double>(found->resubstitution[i][j]), put_back[a][b]) << one.name;
        EXPECT_EQ(static_cast<double>(found->left_out[i][j]), left_out[a][b]) << one.name;
      }
    }
    const auto posterior = numbers(one.name + "-posterior.csv");
    for (std::size_t i = 0; i < posterior.size(); ++i) {
      const Assigned& sample = found->samples[i];
      EXPECT_NEAR(sample.posterior, posterior[i][place(labels, sample.left_out)], 1e-8) << one.name << sample.id;
    }
  }
}

TEST(AgainstR, tests_of_means_are_those_of_manova) {
  for (const Case& one : cases()) {
    const auto found = manova(one.samples);
    ASSERT_TRUE(found);
    const auto expected = numbers(one.name + "-manova.csv");
    const MeansTest* tests[] = {&found->pillai, &found->wilks, &found->hotelling_lawley, &found->roy};
    for (std::size_t t = 0; t < 4; ++t) {
      EXPECT_NEAR(tests[t]->value / expected[0][t], 1, 1e-9) << one.name << t;
      EXPECT_NEAR(tests[t]->f / expected[1][t], 1, 1e-9) << one.name << t;
      EXPECT_NEAR(tests[t]->df1, expected[2][t], 1e-9) << one.name << t;
      EXPECT_NEAR(tests[t]->df2, expected[3][t], 1e-8) << one.name << t;
      EXPECT_NEAR(tests[t]->p / expected[4][t], 1, 1e-6) << one.name << t;
    }
  }
}

TEST(AgainstR, clusters_join_at_the_heights_of_hclust) {
  using enum statistics::Grouping;
  NoProgress progress;
  for (const Case& one : cases()) {
    const auto expected = numbers(one.name + "-clusters.csv");
    std::size_t column = 0;
    for (const statistics::Grouping grouping : {single, complete, average, ward, ward_unsquared}) {
      const auto found = clusters(one.samples, false, {.grouping = grouping, .cut = 2}, progress);
      ASSERT_TRUE(found);
      const std::size_t first = found->merges.size() - 12;
      for (std::size_t k = 0; k < 12; ++k)
        EXPECT_NEAR(found->merges[first + k].height / expected[k][column], 1, 1e-9) << one.name << found->linkage;
      EXPECT_NEAR(*found->cophenetic, expected[12][column], 1e-9) << one.name << found->linkage;
      ++column;
    }
  }
}

TEST(AgainstR, k_means_finds_as_little_as_200_starts_of_kmeans) {
  NoProgress progress;
  for (const Case& one : cases()) {
    for (const auto& line : numbers(one.name + "-k-means.csv")) {
      const auto found = clusters(
          one.samples, false,
          {.grouping = statistics::Grouping::k_means, .cut = static_cast<std::int64_t>(line[0]), .starts = 200},
          progress);
      ASSERT_TRUE(found);
      EXPECT_LE(*found->within, line[1] * (1 + 1e-9)) << one.name << line[0];
      if (*found->within > line[1] * (1 - 1e-9)) {
        EXPECT_NEAR(*found->silhouette, line[2], 1e-9) << one.name << line[0];
      }
    }
  }
}

TEST(AgainstR, variation_and_components_with_zeros_put_in_are_those_worked_by_hand_in_R) {
  const Composition glass = table_of("glass.csv", kMajor);
  const auto tau = numbers("glass-variation.csv");
  const auto found = variation(*prepare(glass, {}));
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t j = 0; j < 4; ++j) EXPECT_NEAR(found->tau[i][j], tau[i][j], 1e-14);
  }
  const Composition potash = table_of("glass.csv", {"Na", "Al", "Si", "K", "Ca"});
  const auto prepared = prepare(potash, {.transform = Transform::clr, .limits = {{"K", 0.02}}});
  ASSERT_TRUE(prepared);
  EXPECT_EQ(prepared->about.replaced.at(0).zeros, 30);
  const auto values = numbers("glass-zeros.csv");
  const auto pca = components(*prepared, {});
  for (std::size_t k = 0; k < 5; ++k) EXPECT_NEAR(pca->eigenvalues[k], values[k][0], 1e-13);
}

}  // namespace
}  // namespace sherd::chemistry
