#include "figure/key_sheet.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "figure/frame.h"
#include "figure/vessel_shape.h"

namespace sherd::figure {
namespace {

constexpr double kWidth = 210, kHeight = 297, kMargin = 12;
constexpr double kRoom = kWidth - 2 * kMargin;
constexpr std::size_t kColumns = 3, kRows = 4;
constexpr double kGapMm = 4;
constexpr double kPictureMm = 23;
constexpr double kPartsMm = 21;
constexpr double kFormRowMm = 8.4;

double heading(Svg& svg, const KeySheet& sheet, std::string_view title) {
  double y = kMargin + 6;
  svg.text({kMargin, y}, fitted(title, Face::serif, 22, kRoom), {22, Face::serif});
  y += 2.5;
  for (const std::string& sentence : sheet.instructions) {
    for (const std::string& line : wrapped(sentence, Face::sans, 9, kRoom, 2)) {
      y += 4.6;
      svg.text({kMargin, y}, line, {9});
    }
  }
  return y + 4;
}

void foot(Svg& svg, const KeySheet& sheet) {
  svg.text({kMargin, kHeight - kMargin + 4}, fitted(sheet.foot, Face::sans, kNotePoints, kRoom),
           {kNotePoints, Face::sans, Paint::quiet});
}

/// The outside of a vessel alone, as large as the box lets it be.
void draw_outline(Svg& svg, const Box& box, const VesselDrawing& vessel) {
  DrawingSettings settings;
  settings.measures = false;
  settings.edges = false;
  for (settings.scale = 3; settings.scale < 40; settings.scale += 0.5) {
    VesselDrawing plain = vessel;
    plain.number.clear();
    plain.bands.clear();
    const DrawnVessel drawn(plain, settings);
    const VesselExtent& e = drawn.extent();
    if (e.width() > box.width || e.height() > box.height) continue;
    drawn.draw(svg, {box.x + (box.width - e.width()) / 2 + e.left, box.y + (box.height - e.height()) / 2 + e.above});
    return;
  }
}

void draw_cell(Svg& svg, const Box& cell, const KeyPicture& picture) {
  svg.begin_mark("Picture " + std::to_string(picture.number) + ": " + picture.name, "fabric=" + picture.code);
  svg.rect(cell, {Paint::none, Paint::rule, 0.25});
  const double pad = 2.2, inner = cell.width - 2 * pad;
  const std::string number = std::to_string(picture.number);
  svg.text({cell.x + pad, cell.y + 8}, number, {20, Face::sans_strong, Paint::terminus});
  const double names = cell.x + pad + text_width_mm(number, Face::sans_strong, 20) + 2;
  double y = cell.y + 4.8;
  for (const std::string& line : wrapped(picture.name, Face::sans_strong, 9, cell.right() - pad - names, 2)) {
    svg.text({names, y}, line, {9, Face::sans_strong});
    y += 3.9;
  }
  svg.text({cell.right() - pad, cell.bottom() - 1.6}, fitted(picture.code, Face::sans, 6, 20),
           {6, Face::sans, Paint::quiet, Anchor::end});
  const double vessel = picture.vessel ? 13 : 0;
  const Box hand{cell.x + pad, cell.y + 11.5, inner - vessel, kPictureMm};
  draw_sherd(svg, hand, picture.look, picture.seed);
  if (picture.vessel)
    draw_outline(svg, {hand.right() + 1.5, hand.y + 3, vessel - 1.5, kPictureMm - 5}, *picture.vessel);
  y = hand.bottom() + 4;
  const double most = cell.bottom() - 4;
  for (const std::string& sentence : picture.looks) {
    for (const std::string& line : wrapped(sentence, Face::sans, 8, inner, 3)) {
      if (y > most) break;
      svg.text({cell.x + pad, y}, line, {8});
      y += 3.7;
    }
  }
  svg.end_mark();
}

/// A jug in outline with the names of its parts.
void draw_parts(Svg& svg, double top) {
  const double x = kMargin + 17, y = top + 1.5, h = kPartsMm - 4;
  std::vector<Point> pot;
  const std::array<Point, 9> side{
      {{3.2, 0}, {2.7, 0.1}, {2.8, 0.26}, {5.6, 0.5}, {6.2, 0.66}, {5.2, 0.86}, {4.1, 0.97}, {4.2, 1}, {0, 1}}};
  for (const Point& p : side) pot.push_back({x + p.x, y + p.y * h});
  for (auto p = side.rbegin(); p != side.rend(); ++p) pot.push_back({x - p->x, y + p->y * h});
  svg.polygon(pot, {Paint::plate, Paint::ink_line, 0.35});
  svg.strokes(
      std::vector<std::vector<Point>>{
          {{x + 2.9, y + 0.1 * h}, {x + 6.4, y + 0.12 * h}, {x + 8.1, y + 0.3 * h}, {x + 6.3, y + 0.56 * h}}},
      {Paint::none, Paint::ink_line, 0.9});
  const auto name = [&](std::string_view words, double from_x, double from_y, double to_x, Anchor anchor) {
    svg.line({x + from_x, y + from_y * h}, {x + to_x, y + from_y * h}, Paint::axis, 0.25);
    svg.text({x + to_x + (anchor == Anchor::end ? -0.8 : 0.8), y + from_y * h + 1}, words,
             {7.5, Face::sans, Paint::ink, anchor});
  };
  name("R rim", -3, 0.02, -9, Anchor::end);
  name("B body", -5.6, 0.52, -9, Anchor::end);
  name("F foot or base", 4, 0.97, 11, Anchor::start);
  name("H handle", 8, 0.3, 11, Anchor::start);
  const double text = kMargin + 56;
  double line_y = top + 4.5;
  for (const std::string_view line :
       {"Which part is it? Write the letter. A piece may be two: R and H for a rim with its handle.",
        "None of the pictures, or not sure: write 0. That is a good answer, too.",
        "Draw nothing, glue nothing and scrape nothing. Wash your hands when you stop.",
        "Each answer is looked at again by the specialist."}) {
    svg.text({text, line_y}, line, {8.5});
    line_y += 4.8;
  }
}

}  // namespace

std::string key_sheet(const KeySheet& sheet) {
  Svg svg;
  const double top = heading(svg, sheet, sheet.title);
  const double bottom = kHeight - kMargin - kPartsMm - 4;
  const double width = (kRoom - kGapMm * (kColumns - 1)) / kColumns;
  const double height = (bottom - top - kGapMm * (kRows - 1)) / kRows;
  for (std::size_t i = 0; i < std::min(sheet.pictures.size(), kKeyPictures); ++i) {
    draw_cell(svg,
              {kMargin + static_cast<double>(i % kColumns) * (width + kGapMm),
               top + static_cast<double>(i / kColumns) * (height + kGapMm), width, height},
              sheet.pictures[i]);
  }
  draw_parts(svg, bottom + 4);
  foot(svg, sheet);
  return svg.finish(kWidth, kHeight, sheet.title);
}

std::string key_form(const KeySheet& sheet) {
  struct Field {
    std::string_view name;
    double width;
  };
  constexpr std::array<Field, 6> kFields{
      {{"Bag", 24}, {"Picture", 22}, {"How many pieces", 34}, {"Part", 24}, {"Grams", 24}, {"What I noticed", 58}}};
  Svg svg;
  double y = heading(svg, sheet, sheet.title + ": answers") + 6;
  const auto ask = [&](std::string_view words, double x, double width) {
    svg.text({x, y}, words, {9});
    svg.line({x + text_width_mm(words, Face::sans, 9) + 1.5, y + 0.8}, {x + width, y + 0.8}, Paint::axis, 0.25);
  };
  ask("My name or initials", kMargin, 84);
  ask("Day", kMargin + 90, 40);
  ask("Context", kMargin + 136, 50);
  y += 7;
  const double top = y, bottom = top + std::floor((kHeight - kMargin - 4 - top) / kFormRowMm) * kFormRowMm;
  std::vector<Segment> lines;
  for (double at = top; at <= bottom + 0.01; at += kFormRowMm) lines.push_back({{kMargin, at}, {kWidth - kMargin, at}});
  double x = kMargin;
  for (const Field& field : kFields) {
    lines.push_back({{x, top}, {x, bottom}});
    svg.text({x + 1.5, top + kFormRowMm - 2.6}, field.name, {9, Face::sans_strong});
    x += field.width;
  }
  lines.push_back({{kWidth - kMargin, top}, {kWidth - kMargin, bottom}});
  svg.lines(lines, Paint::axis, 0.25);
  foot(svg, sheet);
  return svg.finish(kWidth, kHeight, sheet.title + ": answers");
}

}  // namespace sherd::figure
