#include <benchmark/benchmark.h>

#include "figure/plate.h"
#include "figure/render.h"
#include "vessels.h"

/// Drawing vessels. The limits that we hold ourselves to in a release build: one drawing below 50 ms as SVG or PDF, a
/// plate of 40 below 1 s.
namespace sherd::figure {
namespace {

std::vector<VesselDrawing> forty() {
  std::vector<VesselDrawing> out;
  while (out.size() < 40) {
    for (VesselDrawing& d : sample_vessels()) {
      if (out.size() < 40) out.push_back(std::move(d));
    }
  }
  return out;
}

void draw_svg(benchmark::State& state) {
  const VesselDrawing jug = sample_vessels().at(5);  // glaze, bands, handle: the heaviest
  for (auto _ : state) benchmark::DoNotOptimize(vessel_drawing(jug, {}));
}
BENCHMARK(draw_svg)->Unit(benchmark::kMillisecond);

void draw_pdf(benchmark::State& state) {
  const VesselDrawing jug = sample_vessels().at(5);
  for (auto _ : state) benchmark::DoNotOptimize(to_pdf(vessel_drawing(jug, {}), {"jug"}));
}
BENCHMARK(draw_pdf)->Unit(benchmark::kMillisecond);

void draw_png_at_600(benchmark::State& state) {
  const VesselDrawing jug = sample_vessels().at(5);
  for (auto _ : state) benchmark::DoNotOptimize(to_png(vessel_drawing(jug, {}), {600, Scheme::print}));
}
BENCHMARK(draw_png_at_600)->Unit(benchmark::kMillisecond);

void plate_of_forty(benchmark::State& state) {
  const std::vector<VesselDrawing> drawings = forty();
  for (auto _ : state) benchmark::DoNotOptimize(plates(drawings, {}));
}
BENCHMARK(plate_of_forty)->Unit(benchmark::kMillisecond);

void plate_of_forty_as_pdf(benchmark::State& state) {
  const std::vector<VesselDrawing> drawings = forty();
  for (auto _ : state) benchmark::DoNotOptimize(to_pdf_pages(plates(drawings, {}).pages, {"plate"}));
}
BENCHMARK(plate_of_forty_as_pdf)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace sherd::figure
