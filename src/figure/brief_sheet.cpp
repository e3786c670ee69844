#include "figure/brief_sheet.h"

#include <algorithm>
#include <cmath>

#include "figure/frame.h"

namespace sherd::figure {
namespace {

constexpr double kWidth = 210, kHeight = 297, kMargin = 20;
constexpr double kLabelMm = 38;
constexpr double kRoom = kWidth - 2 * kMargin;
constexpr double kNotesMm = 34;  // room to write in
constexpr std::size_t kMostLines = 6;

class Sheet {
 public:
  explicit Sheet(const BriefSheet& sheet) : sheet_(sheet) {}

  std::string draw() {
    text(sheet_.title, Face::sans_strong, 9, 5);
    text(sheet_.subtitle, Face::sans, 9, 6);
    rule();
    for (const auto& [label, value] : sheet_.facts) fact(label, value);
    rule();
    for (const std::string& sentence : sheet_.asked) asked(sentence);
    if (sheet_.sketch) sketch();
    notes();
    svg_.text({kMargin, kHeight - 10}, fitted(sheet_.foot, Face::sans, 7, kRoom), {7, Face::sans, Paint::quiet});
    return svg_.finish(kWidth, kHeight, sheet_.title.empty() ? "Brief" : sheet_.title);
  }

 private:
  void text(const std::string& words, Face face, double points, double step) {
    for (const std::string& line : wrapped(words, face, points, kRoom, 2)) {
      y_ += step;
      svg_.text({kMargin, y_}, line, {points, face});
    }
  }
  void rule() {
    y_ += 3;
    svg_.line({kMargin, y_}, {kWidth - kMargin, y_}, Paint::axis, 0.25);
    y_ += 1;
  }
  void fact(const std::string& label, const std::string& value) {
    const auto lines = wrapped(value.empty() ? "not recorded" : value, Face::sans, 8, kRoom - kLabelMm, kMostLines);
    const double top = y_;
    for (const std::string& line : lines) {
      y_ += 4.2;
      svg_.text({kMargin + kLabelMm, y_}, line, {8, Face::sans, value.empty() ? Paint::quiet : Paint::ink});
    }
    svg_.text({kMargin, top + 4.2}, fitted(label, Face::sans, 8, kLabelMm - 2), {8, Face::sans, Paint::quiet});
    y_ = std::max(y_, top + 4.2);
  }
  void asked(const std::string& sentence) {
    bool first = true;
    for (const std::string& line : wrapped(sentence, Face::sans, 8, kRoom - 5, kMostLines)) {
      y_ += 4.2;
      if (first) svg_.rect({kMargin, y_ - 2.4, 2.6, 2.6}, {Paint::plate, Paint::ink_line, 0.25});
      svg_.text({kMargin + 5, y_}, line, {8});
      first = false;
    }
  }

  void sketch() {
    const double bottom = kHeight - kMargin - kNotesMm, top = y_ + 5;
    DrawingSettings settings = sheet_.settings;
    for (; settings.scale <= 40; settings.scale = std::floor(settings.scale) + 1) {
      const DrawnVessel vessel(*sheet_.sketch, settings);
      const VesselExtent& e = vessel.extent();
      const double height = e.height() + ScaleBar::kHeightMm + 4;
      if (e.width() > kRoom || height > bottom - top) continue;
      const double x = kMargin + (kRoom - e.width()) / 2 + e.left;
      vessel.draw(svg_, {x, top + e.above});
      const ScaleBar bar(settings.scale);
      bar.draw(svg_, {kMargin + (kRoom - bar.width_mm()) / 2, top + e.height() + 2});
      return;
    }
  }

  void notes() {
    const double top = kHeight - kMargin - kNotesMm + 6;
    svg_.text({kMargin, top}, "Notes and corrections", {8, Face::sans, Paint::quiet});
    std::vector<Segment> lines;
    for (double y = top + 9; y < kHeight - kMargin + 1; y += 9) lines.push_back({{kMargin, y}, {kWidth - kMargin, y}});
    svg_.lines(lines, Paint::rule, 0.25);
  }

  const BriefSheet& sheet_;
  Svg svg_;
  double y_ = kMargin - 4;
};

}  // namespace

std::string brief_sheet(const BriefSheet& sheet) { return Sheet(sheet).draw(); }

}  // namespace sherd::figure
