#include "vessels.h"

#include <string>
#include <utility>

namespace sherd::figure {
namespace {

using Pairs = std::vector<std::pair<double, double>>;

/// Points from the base up; those at or below `unseen` are conjectured.
std::vector<OutlinePoint> line(const Pairs& points, double unseen = -1e9) {
  std::vector<OutlinePoint> out;
  for (const auto& [r, z] : points) out.push_back({r, z, z <= unseen});
  return out;
}

Section jar(double unseen = -1e9) {
  return {"",
          line({{0, 0},
                {35, 0},
                {38, 4},
                {55, 30},
                {78, 65},
                {95, 100},
                {100, 122},
                {96, 142},
                {84, 160},
                {70, 171},
                {63, 176},
                {62, 181},
                {66, 188},
                {71, 193},
                {74, 196},
                {73, 199},
                {70, 200}},
               unseen),
          line({{0, 7},
                {30, 7},
                {36, 12},
                {50, 32},
                {72, 66},
                {89, 100},
                {94, 121},
                {90, 139},
                {79, 155},
                {65, 166},
                {57, 172},
                {56, 180},
                {58, 186},
                {63, 193},
                {67, 198},
                {70, 200}},
               unseen),
          {},
          {}};
}
Section lattice_jar() {
  return {"",
          line({{0, 0},
                {40, 0},
                {42, 2},
                {52, 30},
                {66, 70},
                {74, 100},
                {77, 122},
                {75, 140},
                {68, 155},
                {60, 164},
                {57, 170},
                {58, 175},
                {64, 186},
                {73, 196},
                {78, 201},
                {78, 204},
                {75, 204.5}}),
          line({{0, 7},
                {36, 7},
                {46, 30},
                {60, 70},
                {68, 100},
                {71, 121},
                {69, 138},
                {62, 152},
                {54, 162},
                {51, 169},
                {52, 175},
                {58, 186},
                {67, 197},
                {73, 203},
                {75, 204.5}}),
          {},
          {}};
}
Section dish() {
  return {"",
          line({{0, 0},
                {70, 0},
                {72, 2},
                {80, 22},
                {88, 42},
                {92, 44},
                {103, 43},
                {106, 45},
                {105, 48},
                {94, 50},
                {91, 52},
                {90, 58},
                {88, 60}}),
          line({{0, 7}, {64, 7}, {68, 10}, {75, 26}, {82, 44}, {85, 56}, {86, 59}, {88, 60}}),
          {},
          {}};
}
Section bowl() {
  return {
      "",
      line({{0, 6},
            {28, 6},
            {31, 0},
            {38, 0},
            {39, 3},
            {37, 9},
            {41, 12},
            {60, 20},
            {80, 38},
            {92, 60},
            {98, 84},
            {100, 100},
            {102, 103},
            {101, 106},
            {98.5, 106.5}}),
      line({{0, 13}, {34, 14}, {42, 17}, {58, 27}, {75, 44}, {86, 64}, {92, 86}, {94, 100}, {96, 105}, {98.5, 106.5}}),
      {},
      {}};
}
Section beaker() {
  return {"",
          line({{0, 0},
                {20, 0},
                {22, 3},
                {23, 7},
                {22, 11},
                {30, 20},
                {42, 38},
                {48, 60},
                {49, 78},
                {45, 96},
                {37, 110},
                {33, 116},
                {33, 122},
                {37, 130},
                {40, 133},
                {39.5, 135},
                {38, 135}}),
          line({{0, 6},
                {17, 7},
                {27, 20},
                {38.5, 38},
                {44.5, 60},
                {45.5, 78},
                {41.5, 95},
                {33.5, 108},
                {29.5, 116},
                {29.5, 123},
                {33.5, 131},
                {36, 134.5},
                {38, 135}}),
          {},
          {}};
}
Section jug() {
  return {"", line({{0, -5},    {30, -3},   {58, 0},   {60, 4},   {58, 9},   {66, 30},  {88, 80},
                    {100, 120}, {103, 150}, {98, 180}, {82, 205}, {62, 224}, {51, 236}, {47, 250},
                    {46, 270},  {47, 285},  {52, 290}, {55, 294}, {54, 299}, {51, 301}}),
          line({{0, 5},
                {50, 9},
                {60, 32},
                {81, 80},
                {93, 120},
                {96, 150},
                {91, 178},
                {76, 200},
                {56, 219},
                {45, 233},
                {41, 250},
                {40, 272},
                {42, 286},
                {46, 295},
                {48, 300},
                {51, 301}}),
          line({{44, 286},
                {62, 291},
                {82, 286},
                {98, 270},
                {108, 242},
                {112, 212},
                {110, 190},
                {104, 176},
                {96, 166},
                {90, 178},
                {97, 192},
                {98, 212},
                {94, 238},
                {86, 258},
                {75, 270},
                {62, 275},
                {44, 270}}),
          line({{-18, 0}, {-16, 5}, {-8, 7}, {0, 5.5}, {8, 7}, {16, 5}, {18, 0}, {15, -5}, {0, -7}, {-15, -5}})};
}
Section cooking_pot() {
  return {"",
          line({{0, -8},
                {40, -5},
                {80, 3},
                {88, 8},
                {96, 30},
                {108, 70},
                {114, 100},
                {114, 125},
                {108, 145},
                {100, 156},
                {98, 160},
                {104, 166},
                {114, 170},
                {117, 174},
                {116, 179},
                {110, 180}}),
          line({{0, 1},
                {40, 3},
                {76, 11},
                {88, 32},
                {100, 70},
                {106, 100},
                {106, 123},
                {100, 140},
                {92, 152},
                {90, 160},
                {94, 168},
                {104, 176},
                {110, 180}}),
          {},
          {}};
}
Section mortarium() {
  return {"",
          line({{0, 0},
                {55, 0},
                {58, 3},
                {70, 20},
                {88, 45},
                {100, 66},
                {103, 72},
                {112, 70},
                {128, 62},
                {136, 60},
                {138, 64},
                {136, 72},
                {126, 82},
                {114, 87},
                {108, 90},
                {108, 94},
                {105, 98},
                {101, 99}}),
          line({{0, 9}, {48, 9}, {64, 24}, {82, 50}, {94, 74}, {98, 86}, {98, 94}, {101, 99}}),
          {},
          {}};
}
Section plate() {
  return {"",
          line({{0, 3},
                {60, 3},
                {64, 0},
                {68, 0},
                {70, 3},
                {80, 8},
                {88, 14},
                {100, 17},
                {118, 22},
                {121, 24},
                {120, 25.5}}),
          line({{0, 7}, {68, 7}, {78, 11}, {86, 18}, {98, 20.5}, {116, 25}, {120, 25.5}}),
          {},
          {}};
}
Section mug() {
  return {"",
          line({{0, 0},
                {45, 0},
                {47, 3},
                {45, 8},
                {42, 12},
                {46, 30},
                {46, 80},
                {44, 110},
                {44, 125},
                {43, 128},
                {41.5, 128}}),
          line({{0, 7}, {37, 9}, {42, 30}, {42, 80}, {40, 110}, {40, 126}, {41.5, 128}}),
          line({{40, 112},
                {52, 114},
                {62, 108},
                {68, 94},
                {69, 76},
                {65, 56},
                {56, 44},
                {44, 40},
                {44, 46},
                {54, 51},
                {60, 62},
                {62, 77},
                {61, 92},
                {57, 101},
                {50, 105},
                {42, 104}}),
          line({{-8, 0}, {-6, 3.5}, {6, 3.5}, {8, 0}, {6, -3}, {-6, -3}})};
}
Section pancheon() {
  return {"",
          line({{0, 0},
                {95, 0},
                {98, 3},
                {130, 60},
                {160, 115},
                {168, 128},
                {180, 130},
                {186, 134},
                {186, 142},
                {180, 147},
                {170, 148}}),
          line({{0, 10}, {90, 10}, {122, 62}, {152, 118}, {160, 136}, {164, 145}, {170, 148}}),
          {},
          {}};
}

/// What of a vessel lies between two heights.
Section part_of(const Section& whole, double from, double to) {
  Section out;
  for (const OutlinePoint& p : whole.outer) {
    if (p.z_mm >= from && p.z_mm <= to) out.outer.push_back(p);
  }
  for (const OutlinePoint& p : whole.inner) {
    if (p.z_mm >= from && p.z_mm <= to) out.inner.push_back(p);
  }
  return out;
}

VesselBand band(BandLook look, double from, double to, std::optional<int> lines = {}, std::optional<double> angle = {},
                std::optional<double> spacing = {}) {
  VesselBand out;
  out.look = look;
  out.from_mm = from;
  out.to_mm = to;
  out.lines = lines;
  out.angle_deg = angle;
  out.spacing_mm = spacing;
  return out;
}
VesselBand coat(double from, double to, double shade, bool inside) {
  VesselBand out = band(BandLook::glaze, from, to);
  out.shade = shade;
  out.inside = inside;
  return out;
}
VesselBand grits() {
  VesselBand out = band(BandLook::dots, 10, 80, {}, {}, 8);
  out.inside = true;
  return out;
}

}  // namespace

std::vector<VesselDrawing> sample_vessels() {
  std::vector<VesselDrawing> out;
  const auto add = [&](const char* title, Section section, DiameterKnown known, double percent, SectionFill fill,
                       std::vector<VesselBand> bands) {
    VesselDrawing d;
    d.number = std::to_string(out.size() + 1);
    d.title = d.number + ": " + title;
    d.data_set = "piece=" + d.number;
    d.section = std::move(section);
    d.diameter = known;
    if (percent > 0) d.rim_percent = percent;
    d.fill = fill;
    d.bands = std::move(bands);
    out.push_back(std::move(d));
  };
  using enum BandLook;
  constexpr auto kSure = DiameterKnown::certain, kDoubtful = DiameterKnown::uncertain, kNone = DiameterKnown::unknown;
  constexpr auto kSolid = SectionFill::solid, kHatched = SectionFill::hatched, kOpen = SectionFill::open;
  add("jar", jar(90), kSure, 22, kSolid, {band(groove, 150, 150), band(wave, 128, 142)});
  add("jar with lattice", lattice_jar(), kSure, 64, kHatched,
      {band(lattice, 82, 138, {}, 80, 16), band(burnish, 140, 160)});
  add("flanged dish", dish(), kSure, 12, kSolid, {});
  add("bowl", bowl(), kDoubtful, 7, kSolid, {band(cordon, 84, 90), band(stamp, 45, 75, 1, {}, 26)});
  add("beaker", beaker(), kSure, 100, kSolid, {band(rouletting, 62, 92), band(groove, 100, 103, 2)});
  add("jug", jug(), kSure, 45, kSolid, {coat(110, 285, 0.3, false), band(combing, 215, 222, 4)});
  add("cooking pot", cooking_pot(), kSure, 18, kHatched, {band(thumbing, 132, 141)});
  add("mortarium", mortarium(), kSure, 15, kSolid, {grits()});
  add("plate", plate(), kSure, 30, kOpen, {});
  add("mug", mug(), kSure, 50, kSolid, {band(groove, 96, 104, 3), band(combed_wave, 22, 36, 4)});
  add("pancheon", pancheon(), kDoubtful, 8, kSolid, {coat(0, 148, 0.6, true)});
  add("jar rim", part_of(jar(), 120, 999), kSure, 11, kSolid, {});
  add("rim without a diameter", part_of(cooking_pot(), 100, 999), kNone, 3, kHatched, {});
  add("sherd with lattice", part_of(lattice_jar(), 70, 140), kNone, 0, kHatched, {band(lattice, 80, 130, {}, 110, 14)});
  add("base", part_of(jar(), -1, 60), kSure, 0, kSolid, {});
  return out;
}

}  // namespace sherd::figure
