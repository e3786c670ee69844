#include "figure/recording_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "figure/svg.h"

namespace sherd::figure {
namespace {

constexpr double kEdgeMm = 8;      // that printers leave white
constexpr double kHolesMm = 14;    // at the left, for filing
constexpr double kTitleMm = 9;     // title and site
constexpr double kBlankMm = 11.5;  // a row of the head
constexpr double kHeadsMm = 8.5;   // names of the columns
constexpr double kLeastLineMm = 7, kMostLineMm = 8.5;
constexpr double kFootLineMm = 3.4, kFootPoints = 7;
constexpr double kNamePoints = 7, kHeadPoints = 7.5;
constexpr double kThinMm = 0.25, kFrameMm = 0.35;
constexpr double kCheckMm = 50;
constexpr std::size_t kMostFootLines = 7;

class Drawer {
 public:
  explicit Drawer(const RecordingCard& card) : card_(card) {
    inner_ = {kHolesMm, kEdgeMm, card.width_mm - kHolesMm - kEdgeMm, card.height_mm - 2 * kEdgeMm};
    for (const std::string& one : card.foot) {
      for (const std::string& line : wrapped(one, Face::sans, kFootPoints, inner_.width - kCheckMm - 6, kMostFootLines))
        foot_.push_back(line);
    }
  }

  Result<DrawnCard> draw() {
    const double head = kTitleMm + kBlankMm * static_cast<double>(card_.head.size()) + 2;
    const double foot = kFootLineMm * static_cast<double>(std::max<std::size_t>(foot_.size(), 2)) + 2;
    const Box table{inner_.x, inner_.y + head, inner_.width, inner_.height - head - foot};
    const int lines = static_cast<int>(std::floor((table.height - kHeadsMm) / kLeastLineMm));
    if (lines < 3)
      return fail("bad_request", "the card is too small for its table", "take larger paper: A4 where A5 was asked for");
    draw_title();
    draw_head();
    draw_table(table, lines);
    draw_foot(table.bottom() + 2);
    return DrawnCard{svg_.finish(card_.width_mm, card_.height_mm, card_.title), lines};
  }

 private:
  void draw_title() {
    const double y = inner_.y + 5;
    svg_.text({inner_.x, y}, card_.title, {12, Face::sans_strong});
    const double used = text_width_mm(card_.title, Face::sans_strong, 12) + 6;
    svg_.text({inner_.right(), y}, fitted(card_.site, Face::sans, 9, inner_.width - used),
              {9, Face::sans, Paint::quiet, Anchor::end});
  }

  void draw_head() {
    double y = inner_.y + kTitleMm;
    for (const auto& row : card_.head) {
      double whole = 0, x = inner_.x;
      for (const CardBlank& blank : row) whole += blank.share;
      for (const CardBlank& blank : row) {
        const double width = inner_.width * blank.share / whole;
        svg_.rect({x, y, width, kBlankMm - 1}, {Paint::none, Paint::ink_line, kThinMm});
        svg_.text({x + 1.2, y + 2.9}, fitted(blank.name, Face::sans, kNamePoints, width - 2),
                  {kNamePoints, Face::sans, Paint::quiet});
        svg_.text({x + 1.2, y + 8.3}, fitted(blank.filled, Face::sans, 10, width - 2), {10, Face::sans});
        x += width;
      }
      y += kBlankMm;
    }
  }

  void draw_table(const Box& table, int lines) {
    const double high = std::min(kMostLineMm, (table.height - kHeadsMm) / lines);
    const double bottom = table.y + kHeadsMm + high * lines;
    double whole = 0, x = table.x;
    for (const CardColumn& column : card_.columns) whole += column.share;
    std::vector<Segment> rules;
    for (const CardColumn& column : card_.columns) {
      const double width = table.width * column.share / whole;
      svg_.text({x + 1, table.y + 3.3}, fitted(column.name, Face::sans_strong, kHeadPoints, width - 1.5),
                {kHeadPoints, Face::sans_strong});
      svg_.text({x + 1, table.y + 6.8}, fitted(column.unit, Face::sans, kNamePoints, width - 1.5),
                {kNamePoints, Face::sans, Paint::quiet});
      if (x > table.x) rules.push_back({{x, table.y}, {x, bottom}});
      x += width;
    }
    for (int line = 1; line < lines; ++line) {
      const double y = table.y + kHeadsMm + high * line;
      rules.push_back({{table.x, y}, {table.right(), y}});
    }
    svg_.lines(rules, Paint::ink_line, kThinMm);
    const std::vector<Segment> under{{{table.x, table.y + kHeadsMm}, {table.right(), table.y + kHeadsMm}}};
    svg_.lines(under, Paint::ink_line, kFrameMm);
    svg_.rect({table.x, table.y, table.width, bottom - table.y}, {Paint::none, Paint::ink_line, kFrameMm});
  }

  void draw_foot(double top) {
    double y = top + 2.2;
    for (const std::string& line : foot_) {
      svg_.text({inner_.x, y}, line, {kFootPoints, Face::sans});
      y += kFootLineMm;
    }
    const double to = inner_.right(), from = to - kCheckMm, at = top + 1.6;
    svg_.begin_mark("Check line of 50 mm", "");
    const std::vector<Segment> check{
        {{from, at}, {to, at}}, {{from, at - 1}, {from, at + 1}}, {{to, at - 1}, {to, at + 1}}};
    svg_.lines(check, Paint::ink_line, kThinMm);
    svg_.end_mark();
    svg_.text({to, at + 3.6}, "50 mm if printed at 100 %", {kFootPoints, Face::sans, Paint::quiet, Anchor::end});
  }

  const RecordingCard& card_;
  Box inner_;
  std::vector<std::string> foot_;
  Svg svg_;
};

}  // namespace

Result<DrawnCard> recording_card(const RecordingCard& card) { return Drawer(card).draw(); }

}  // namespace sherd::figure
