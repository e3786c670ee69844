#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "figure/palette.h"
#include "samples.h"

namespace sherd::figure {
namespace {

namespace fs = std::filesystem;
const fs::path kSource = SHERD_SOURCE_DIR;
const fs::path kApproved = kSource / "tests/figures";

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

// Shows the first line that differs, since a whole drawing tells nobody anything.
std::string first_difference(const std::string& a, const std::string& b) {
  std::istringstream left(a), right(b);
  std::string l, r;
  for (int number = 1;; ++number) {
    const bool has_l = static_cast<bool>(std::getline(left, l)), has_r = static_cast<bool>(std::getline(right, r));
    if (!has_l && !has_r) return "no difference by lines";
    if (has_l != has_r || l != r) {
      return "line " + std::to_string(number) + "\n  approved: " + (has_r ? r : "(end)") +
             "\n  drawn:    " + (has_l ? l : "(end)");
    }
  }
}

TEST(ApprovedFigures, AreDrawnAsApproved) {
  for (const Sample& sample : samples()) {
    const fs::path path = kApproved / (sample.name + ".svg");
    ASSERT_TRUE(fs::exists(path)) << path << " is missing: look at the figure, then run tools/approve_figures";
    const std::string approved = bytes_of(path);
    EXPECT_TRUE(sample.svg == approved) << sample.name
                                        << " is not as approved; look at it with tools/contact_sheet, then run "
                                        << "tools/approve_figures. First difference: "
                                        << first_difference(sample.svg, approved);
  }
}

TEST(ApprovedFigures, NoApprovedFileIsLeftWithoutItsFigure) {
  std::set<std::string> names;
  for (const Sample& sample : samples()) names.insert(sample.name + ".svg");
  for (const auto& file : fs::directory_iterator(kApproved)) {
    if (file.path().extension() == ".svg") {
      EXPECT_TRUE(names.contains(file.path().filename().string())) << file.path();
    }
  }
}

TEST(ApprovedFigures, ThePagesStylesheetIsThatOfThePalette) {
  EXPECT_EQ(bytes_of(kSource / "data/figures/figure.css"), page_stylesheet()) << "run tools/approve_figures";
}

}  // namespace
}  // namespace sherd::figure
