#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>

#include "program.h"

/// Methods of `compare` against R 4.2 with its packages ca, MASS, vegan and cluster, on five tables (and one of places,
/// and one of three sides). What R found stands in against_r/expected.csv, made by against_r/make.R.
/// Tables: eyes and hair (R. D. Snee 1974, The American Statistician 28: 9-12); Caithness (R. A. Fisher 1940, Annals of
/// Eugenics 10: 422-429); Compiegne (A. Lacroix 1997); `ties` and `made` are our own, the one with many zeros, the
/// other with years.
namespace sherd::tests {
namespace {

using Key = std::pair<std::string, std::string>;
using Found = std::map<std::string, std::map<Key, double>>;  // quantity -> row and column -> value

std::map<std::string, Found> read_expected() {
  std::map<std::string, Found> out;
  std::ifstream in(std::string(SHERD_SOURCE_DIR) + "/tests/against_r/expected.csv");
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream cells(line);
    std::string table, quantity, row, column, value;
    std::getline(cells, table, ',');
    std::getline(cells, quantity, ',');
    std::getline(cells, row, ',');
    std::getline(cells, column, ',');
    std::getline(cells, value, ',');
    out[table][quantity][{row, column}] = std::stod(value);
  }
  return out;
}

const Found& expected_of(const std::string& table) {
  static const std::map<std::string, Found> kExpected = read_expected();
  return kExpected.at(table);
}

class AgainstR : public Bench, public testing::WithParamInterface<const char*> {
 protected:
  nlohmann::json of(std::vector<std::string> more) const {
    std::vector<std::string> arguments{
        "compare", std::string(SHERD_SOURCE_DIR) + "/tests/against_r/" + GetParam() + ".csv", "--how"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    if (GetParam() == std::string("made")) arguments.insert(arguments.end(), {"--aside", "year"});
    return ask(arguments);
  }
  const Found& expected() const { return expected_of(GetParam()); }
  double one(const std::string& quantity) const { return expected().at(quantity).begin()->second; }
  double at(const std::string& quantity, const std::string& row, const std::string& column = "") const {
    return expected().at(quantity).at({row, column});
  }
};

void expect_close(double ours, double theirs, const std::string& what) {
  EXPECT_NEAR(ours, theirs, 1e-8 * std::max(1.0, std::abs(theirs))) << what;
}

TEST_P(AgainstR, ordination_is_that_of_ca) {
  const auto answer = of({"ordination", "--resamples", "0"});
  const auto& eigenvalues = expected().at("eigenvalue");
  ASSERT_EQ(answer["eigenvalues"].size(), eigenvalues.size());
  for (const auto& [key, value] : eigenvalues)
    expect_close(answer["eigenvalues"][std::stoul(key.first) - 1], value, "eigenvalue " + key.first);
  expect_close(std::sqrt(answer["eigenvalues"][0].get<double>()), one("first canonical correlation"), "MASS corresp");
  for (const char* side : {"row", "column"}) {
    for (const auto& point : answer[std::string(side) + "s"]) {
      const std::string label = point["label"];
      for (std::size_t k = 0; k < eigenvalues.size(); ++k) {
        const double standard = point["standard"][k];
        expect_close(standard * standard, at(std::string(side) + " standard squared", label, std::to_string(k + 1)),
                     label);
      }
    }
  }
  for (const auto& row : answer["rows"]) {
    const std::string label = row["label"];
    expect_close(row["mass"], at("row mass", label), label);
    expect_close(row["inertia"], at("row inertia", label), label);
    for (std::size_t k = 0; k < eigenvalues.size(); ++k)
      expect_close(row["quality"][k], at("row quality", label, std::to_string(k + 1)), label);
  }
}

TEST_P(AgainstR, difference_is_that_of_chisq_test_and_loglin) {
  const auto answer = of({"difference", "--resamples", "0"});
  expect_close(answer["chi_square"], one("chi square"), "chi-square");
  expect_close(answer["g_square"], one("g square"), "G squared");
  EXPECT_EQ(answer["df"], one("df"));
  EXPECT_NEAR(answer["p"].get<double>(), one("p"), 1e-10);
  for (std::size_t i = 0; i < answer["labels"].size(); ++i) {
    for (std::size_t j = 0; j < answer["types"].size(); ++j) {
      const std::string row = answer["labels"][i], column = answer["types"][j];
      expect_close(answer["expected"][i][j], at("expected", row, column), row + column);
      expect_close(answer["adjusted_residuals"][i][j], at("adjusted residual", row, column), row + column);
    }
  }
}

TEST_P(AgainstR, similarity_is_200_less_the_distance_of_percentages) {
  const auto answer = of({"similarity", "--resamples", "0"});
  for (std::size_t i = 0; i < answer["labels"].size(); ++i) {
    for (std::size_t j = 0; j < answer["labels"].size(); ++j)
      expect_close(answer["matrix"][i][j], at("similarity", answer["labels"][i], answer["labels"][j]), "similarity");
  }
}

TEST_P(AgainstR, diversity_is_that_of_vegan) {
  const auto answer = of({"diversity", "--resamples", "0"});
  EXPECT_EQ(answer["common_n"], one("common n"));
  for (const auto& row : answer["rows"]) {
    const std::string label = row["label"];
    EXPECT_EQ(row["richness"], at("richness", label));
    expect_close(row["shannon"], at("shannon", label), label);
    expect_close(row["simpson"], at("simpson", label), label);
    expect_close(row["chao1_corrected"], at("chao1 corrected", label), label);
    for (const auto& one : row["expected_richness"]) {
      if (one["n"] != answer["common_n"]) continue;
      expect_close(one["value"], at("types at common n", label), label);
      const double half = one["high95"].get<double>() - one["value"].get<double>();
      EXPECT_NEAR(half, 1.96 * at("se of types at common n", label), 1e-4) << label;
    }
  }
}

TEST_P(AgainstR, clusters_are_those_of_hclust_silhouette_and_kmeans) {
  for (const char* linkage : {"single", "complete", "average", "ward"}) {
    const std::string name = linkage;
    const bool cut = expected().contains("cluster " + name);
    std::vector<std::string> arguments{"clusters", "--linkage", name};
    if (cut) arguments.insert(arguments.end(), {"--cut", "3"});
    const auto answer = of(arguments);
    for (std::size_t s = 0; s < answer["merges"].size(); ++s)
      expect_close(answer["merges"][s]["height"], at("height " + name, std::to_string(s + 1)), name);
    expect_close(answer["cophenetic"], one("cophenetic " + name), name);
    if (!cut) continue;
    for (const auto& member : answer["cut"]) {
      EXPECT_EQ(member["cluster"], at("cluster " + name, member["label"])) << name;
      expect_close(member["silhouette"], at("silhouette " + name, member["label"]), name);
    }
  }
  if (!expected().contains("k-means within")) return;
  const auto answer = of({"clusters", "--linkage", "k-means", "--cut", "3"});
  expect_close(answer["within"], one("k-means within"), "k-means");
}

INSTANTIATE_TEST_SUITE_P(FiveTables, AgainstR, testing::Values("eyes", "caithness", "compiegne", "ties", "made"));

class AgainstRMore : public Bench {};

TEST_F(AgainstRMore, dates_on_two_axes_are_those_of_lm_and_predict) {
  const std::string table = std::string(SHERD_SOURCE_DIR) + "/tests/against_r/made.csv";
  const auto answer =
      ask({"compare", table, "--how", "ordination", "--resamples", "0", "--dates", "year", "--axes", "2"});
  const Found& expected = expected_of("made");
  EXPECT_EQ(answer["dates"]["axes"], 2);
  expect_close(answer["dates"]["r_square"], expected.at("date r squared").begin()->second, "R squared");
  for (const auto& row : answer["dates"]["rows"]) {
    const std::string label = row["label"];
    for (const char* what : {"year", "low95", "high95"})
      expect_close(row[what], expected.at("date").at({label, what}), label + std::string(" ") + what);
    if (!row["given"].is_null()) expect_close(row["left_out"], expected.at("date left out").at({label, ""}), label);
  }
}

TEST_F(AgainstRMore, curves_of_distance_are_those_of_lm) {
  const std::string table = std::string(SHERD_SOURCE_DIR) + "/tests/against_r/falls.csv";
  const auto answer =
      ask({"compare", table, "--how", "distance", "--measure", "percent", "--columns", "miles", "--groups", "by"});
  const Found& expected = expected_of("falls");
  for (const auto& group : answer["groups"]) {
    const std::string name = group["group"] == "" ? "all" : group["group"].get<std::string>();
    for (const auto& curve : group["curves"]) {
      if (curve["name"] == "exponential") {
        expect_close(curve["a"], expected.at("exponential").at({"a", name}), name);
        expect_close(curve["b"], -expected.at("exponential").at({"b", name}), name);
        expect_close(curve["se_b"], expected.at("exponential se b").at({"", name}), name);
        expect_close(curve["r_square"], expected.at("exponential r squared").at({"", name}), name);
      }
      if (curve["name"] == "power") expect_close(curve["b"], -expected.at("power").at({"b", name}), name);
      if (curve["name"] == "general") {
        EXPECT_NEAR(curve["exponent"].get<double>(), expected.at("general exponent").at({"", name}), 1e-4) << name;
      }
    }
  }
}

TEST_F(AgainstRMore, log_linear_models_of_a_store_are_those_of_loglin) {
  // 592 students by hair, eyes and sex (R. D. Snee 1974, as packaged with R): hair stands for contexts, eyes for
  // fabrics, sex for forms.
  const std::vector<std::string> hair{"black", "brown", "red", "blond"}, eyes{"brown", "blue", "hazel", "green"};
  const std::vector<std::vector<int>> male{{32, 53, 10, 3}, {11, 50, 10, 30}, {10, 25, 7, 5}, {3, 15, 7, 8}};
  const std::vector<std::vector<int>> female{{36, 66, 16, 4}, {9, 34, 7, 64}, {5, 29, 7, 5}, {2, 14, 7, 8}};
  ask({"new", "s.sherds", "--site", "S"});
  std::string rows = "context,fabric,form,count\n";
  for (std::size_t e = 0; e < eyes.size(); ++e) {
    for (std::size_t h = 0; h < hair.size(); ++h) {
      for (const auto& [form, counts] : {std::pair{"male", &male}, std::pair{"female", &female}})
        rows += hair[h] + "," + eyes[e] + "," + form + "," + std::to_string((*counts)[e][h]) + "\n";
    }
  }
  write("s.csv", rows);
  ask({"import", "s.sherds", "s.csv", "--as", "sherds", "--new-codes"});
  const auto answer = ask({"compare", "s.sherds", "--how", "difference", "--layer", "form", "--resamples", "0"});
  EXPECT_EQ(answer["log_linear"]["total"], 592);
  const auto& expected = expected_of("students").at("log-linear");
  std::size_t seen = 0;
  for (const auto& model : answer["log_linear"]["models"]) {
    std::string terms = model["terms"];
    for (const auto& [ours, theirs] :
         {std::pair<std::string, std::string>{"context", "hair"}, {"fabric", "eye"}, {"form", "sex"}, {", ", "; "}}) {
      for (std::size_t at = terms.find(ours); at != std::string::npos; at = terms.find(ours, at + theirs.size()))
        terms.replace(at, ours.size(), theirs);
    }
    if (!expected.contains({"g_square", terms})) continue;
    ++seen;
    EXPECT_NEAR(model["g_square"].get<double>(), expected.at({"g_square", terms}), 1e-5) << terms;
    EXPECT_NEAR(model["chi_square"].get<double>(), expected.at({"chi_square", terms}), 1e-4) << terms;
    EXPECT_EQ(model["df"], expected.at({"df", terms})) << terms;
  }
  EXPECT_EQ(seen, 8U) << answer["log_linear"]["models"].dump(1);
  // Eyes taken together are together in the table of three sides, too: 4 x 3 x 2, independent with 24 - 1 - 3 - 2 - 1
  // degrees of freedom. Calculated with R, loglin() of HairEyeColor.
  const auto merged = ask({"compare", "s.sherds", "--how", "difference", "--layer", "form", "--resamples", "0",
                           "--merge", "hazel+green"})["log_linear"];
  EXPECT_EQ(merged["cells"], 24);
  EXPECT_EQ(merged["total"], 592);
  EXPECT_EQ(merged["models"][0]["df"], 17);
  EXPECT_NEAR(merged["models"][0]["g_square"].get<double>(), 157.1148057107, 1e-6);
}

}  // namespace
}  // namespace sherd::tests
