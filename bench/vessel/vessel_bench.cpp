#include <benchmark/benchmark.h>

#include <cmath>
#include <numbers>
#include <vector>

#include "base/random.h"
#include "methods/vessel/arc.h"
#include "methods/vessel/broken_copies.h"
#include "methods/vessel/capacity.h"
#include "methods/vessel/match.h"
#include "methods/vessel/polyline.h"
#include "methods/vessel/rim.h"
#include "methods/vessel/trace.h"

/// Measuring vessels. The limits that we hold ourselves to, in a release build: the geometric fit of an arc of 1,000
/// points below 1 ms; a fragment of a third of the wall against 10,000 sections of 200 points, tilt within 10 degrees,
/// diameter within 20 %, below 1 s.
namespace sherd::vessel {
namespace {

std::vector<Place> arc_points(int n) {
  Random random(5);
  std::vector<Place> points;
  for (int i = 0; i < n; ++i) {
    const double angle = 2 * std::numbers::pi * 0.15 * i / (n - 1);
    const double r = 110 + 0.2 * random.normal();
    points.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  return points;
}

void arc_of_1000_points(benchmark::State& state) {
  const auto points = arc_points(1000);
  for (auto unused : state) {
    const auto fit = fit_circle(points, FitMethod::geometric);
    if (!fit) state.SkipWithError("no circle");
    benchmark::DoNotOptimize(fit);
  }
}
BENCHMARK(arc_of_1000_points)->Unit(benchmark::kMicrosecond);

void rim_of_1000_points_with_all_fits(benchmark::State& state) {
  const auto points = arc_points(1000);
  for (auto unused : state) {
    const auto rim = rim_from_points(points, {});
    if (!rim) state.SkipWithError("no rim");
    benchmark::DoNotOptimize(rim);
  }
}
BENCHMARK(rim_of_1000_points_with_all_fits)->Unit(benchmark::kMicrosecond);

std::vector<Section> many_sections() {
  std::vector<Section> sections = invented_forms(10'000, 3);
  for (Section& section : sections) {
    section.outer = resampled(section.outer, 200);
    const bool closed = section.inner.back() == section.outer.back();
    section.inner = resampled(section.inner, 200);
    if (closed) section.inner.back() = section.outer.back();
  }
  return sections;
}

void fragment_among_10000_sections(benchmark::State& state) {
  const auto sections = many_sections();
  Random random(8);
  const Section fragment = broken_copy(sections[4321], 1.0 / 3, {}, random);
  NoProgress progress;
  for (auto unused : state) {
    const MatchIndex index(sections);
    const auto places = index.match(fragment, {.tilt_deg = 10, .diameter_percent = 20}, progress);
    if (!places) state.SkipWithError("no match");
    benchmark::DoNotOptimize(places);
  }
}
BENCHMARK(fragment_among_10000_sections)->Unit(benchmark::kMillisecond);

void capacity_with_its_error(benchmark::State& state) {
  const std::vector<Section> one = invented_forms(1, 4);
  for (auto unused : state) benchmark::DoNotOptimize(capacity_of(one, {.diameter_error_mm = 4, .stance_error_deg = 1}));
}
BENCHMARK(capacity_with_its_error)->Unit(benchmark::kMicrosecond);

void trace_across_a_megapixel(benchmark::State& state) {
  GreyImage image{1000, 1000, std::vector<std::uint8_t>(1'000'000, 230)};
  for (int i = 100; i < 900; ++i) {
    const int x = 500 + static_cast<int>(200 * std::sin(i / 120.0));
    for (int d = -1; d <= 1; ++d) image.pixels[static_cast<std::size_t>(i * 1000 + x + d)] = 40;
  }
  const std::vector<Place> clicks{{500 + 200 * std::sin(110 / 120.0), 110}, {500 + 200 * std::sin(890 / 120.0), 890}};
  for (auto unused : state) {
    const auto traced = trace_outline(image, clicks, {});
    if (!traced) state.SkipWithError("no trace");
    benchmark::DoNotOptimize(traced);
  }
}
BENCHMARK(trace_across_a_megapixel)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sherd::vessel
