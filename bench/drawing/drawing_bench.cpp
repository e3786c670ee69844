#include <benchmark/benchmark.h>
#include <cairo.h>

#include "figure/plate.h"
#include "figure/png_file.h"
#include "figure/render.h"
#include "vessels.h"

/// Drawing vessels. The limits that we hold ourselves to in a release build: one drawing below 50 ms as SVG, PDF or PNG
/// of 600 dots an inch, a plate of 40 below 1 s. `cairo_s_own_png` is what the pixels of draw_png_at_600 take in
/// cairo's writer: with `our_png` the ratio that is meant.
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

/// Half paper, half the screens and edges of a drawing, as large as the jug at 600 dots an inch.
struct Sheet {
  static constexpr int kWidth = 1500, kHeight = 1900;
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, kWidth, kHeight);
  Sheet() {
    cairo_t* cairo = cairo_create(surface);
    cairo_set_source_rgb(cairo, 1, 1, 1);
    cairo_paint(cairo);
    cairo_set_source_rgb(cairo, 0.14, 0.14, 0.14);
    for (int i = 0; i < 60; ++i) {
      cairo_arc(cairo, 750, 900, 12 * i, 0, 4);
      cairo_stroke(cairo);
    }
    cairo_destroy(cairo);
  }
  ~Sheet() { cairo_surface_destroy(surface); }
  Sheet(const Sheet&) = delete;
  Sheet& operator=(const Sheet&) = delete;
};

void our_png(benchmark::State& state) {
  const Sheet sheet;
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(sheet.surface));
  std::size_t bytes = 0;
  for (auto _ : state) {
    const auto png =
        png_file({cairo_image_surface_get_data(sheet.surface), Sheet::kWidth, Sheet::kHeight, stride}, 600);
    bytes = png->size();
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(our_png)->Unit(benchmark::kMillisecond);

void cairo_s_own_png(benchmark::State& state) {
  const Sheet sheet;
  std::size_t bytes = 0;
  for (auto _ : state) {
    bytes = 0;
    const auto count = [](void* all, const unsigned char*, unsigned int length) {
      *static_cast<std::size_t*>(all) += length;
      return CAIRO_STATUS_SUCCESS;
    };
    cairo_surface_write_to_png_stream(sheet.surface, count, &bytes);
  }
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(cairo_s_own_png)->Unit(benchmark::kMillisecond);

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
