#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "base/csv.h"
#include "base/numbers.h"
#include "methods/vessel/broken_copies.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/section.h"

/// The tables of docs/methods/match.md: how often broken copies of known sections are found again, how far the scores
/// can be believed, and which standard deviation of a gap makes them so.
///
///   match_calibration [PROFILES.csv]   landmarks of half-sections in cm, a row each (AX, AY, BX, BY ...)
namespace {

using sherd::OutlinePoint;
using sherd::Section;
using sherd::vessel::CopiesFound;
using sherd::vessel::CopyErrors;
using sherd::vessel::MatchSettings;

constexpr double kMmInCm = 10;
constexpr int kSteps = 10;  // between two landmarks
constexpr std::int64_t kCopies = 500;
constexpr std::uint64_t kSeed = 2024;

/// A smooth curve through landmarks (E. Catmull & R. Rom 1974).
std::vector<OutlinePoint> smooth(const std::vector<OutlinePoint>& corners) {
  std::vector<OutlinePoint> line{corners.front()};
  for (std::size_t i = 1; i < corners.size(); ++i) {
    const OutlinePoint& a = corners[i > 1 ? i - 2 : 0];
    const OutlinePoint& b = corners[i - 1];
    const OutlinePoint& c = corners[i];
    const OutlinePoint& d = corners[i + 1 < corners.size() ? i + 1 : i];
    for (int k = 1; k <= kSteps; ++k) {
      const double t = static_cast<double>(k) / kSteps;
      const auto mix = [t](double p, double q, double r, double s) {
        return 0.5 * (2 * q + (r - p) * t + (2 * p - 5 * q + 4 * r - s) * t * t + (3 * q - p - 3 * r + s) * t * t * t);
      };
      line.push_back({std::max(0.0, mix(a.r_mm, b.r_mm, c.r_mm, d.r_mm)), mix(a.z_mm, b.z_mm, c.z_mm, d.z_mm)});
    }
  }
  return line;
}

std::vector<Section> profiles_in(const std::string& file) {
  std::ifstream in(file);
  std::stringstream text;
  text << in.rdbuf();
  const auto rows = sherd::parse_csv(text.str());
  std::vector<Section> sections;
  for (std::size_t row = 1; rows && row < rows->size(); ++row) {
    std::vector<OutlinePoint> corners;
    for (std::size_t i = 1; i + 1 < (*rows)[row].size(); i += 2) {
      const auto x = sherd::parse_scaled((*rows)[row][i], 4);
      const auto y = sherd::parse_scaled((*rows)[row][i + 1], 4);
      if (!x || !y) continue;
      const OutlinePoint corner{static_cast<double>(*x) / 1e4 * kMmInCm, static_cast<double>(*y) / 1e4 * kMmInCm};
      if (corners.empty() || sherd::vessel::distance(corners.back(), corner) > 0) corners.push_back(corner);
    }
    if (corners.size() < 3) continue;
    Section section;
    section.outer = smooth(corners);
    if (auto tidy = sherd::vessel::tidy_section(section)) sections.push_back(std::move(*tidy));
  }
  return sections;
}

void tables_of(const char* what, const std::vector<Section>& sections) {
  fmt::print("\n{}: {} sections, {} copies a row\n", what, sections.size(), kCopies);
  fmt::print("| survives, % | first | among five | log loss |\n|---|---|---|---|\n");
  std::vector<CopiesFound> all;
  for (const double share : {0.10, 0.15, 0.20, 0.33, 0.50, 0.75}) {
    all.push_back(find_copies(sections, share, CopyErrors{}, MatchSettings{}, kCopies, kSeed));
    const CopiesFound& found = all.back();
    fmt::print("| {:.0f} | {:.0f} % | {:.0f} % | {:.2f} |\n", 100 * share, 100 * found.rank_1, 100 * found.rank_5,
               found.log_loss);
  }
  fmt::print("\n| score of the first | claimed | right | copies |\n|---|---|---|---|\n");
  for (std::size_t tenth = 0; tenth < 10; ++tenth) {
    double claimed = 0, right = 0, n = 0;
    for (const CopiesFound& found : all) {
      const auto in = static_cast<double>(found.in_tenth[tenth]);
      claimed += in * found.claimed[tenth];
      right += in * found.right[tenth];
      n += in;
    }
    const double from = static_cast<double>(tenth) / 10;
    if (n > 0)
      fmt::print("| {:.1f} to {:.1f} | {:.2f} | {:.2f} | {:.0f} |\n", from, from + 0.1, claimed / n, right / n, n);
  }
}

void gaps_of(const char* what, const std::vector<Section>& sections) {
  fmt::print("\n{}: mean log loss by the gap's standard deviation and reach\n", what);
  for (const double gap : {0.3, 0.45, 0.6, 0.8, 1.1}) {
    for (const double reach : {15.0, 25.0, 50.0}) {
      double loss = 0;
      for (const double share : {0.15, 0.33, 0.50}) {
        MatchSettings settings;
        settings.gap_mm = gap;
        settings.gap_reach_mm = reach;
        loss += find_copies(sections, share, CopyErrors{}, settings, kCopies / 4, kSeed + 1).log_loss / 3;
      }
      fmt::print("  {:.2f} mm, {:.0f} mm: {:.3f}\n", gap, reach, loss);
    }
  }
}

}  // namespace

int main(int count, char** arguments) {
  const auto invented = sherd::vessel::invented_forms(300, 9);
  tables_of("Invented vessels, both sides", invented);
  gaps_of("Invented vessels", invented);
  if (count < 2) return 0;
  const auto known = profiles_in(arguments[1]);
  if (known.empty()) {
    fmt::print("no profiles in {}\n", arguments[1]);
    return 1;
  }
  tables_of("Half-sections of the file, outer side", known);
  gaps_of("Half-sections of the file", known);
  return 0;
}
