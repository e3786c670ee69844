#include "figure/label_sheet.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "figure/frame.h"
#include "figure/qr.h"
#include "figure/svg.h"

namespace sherd::figure {
namespace {

constexpr double kMarginMm = 8;  // that printers leave white
constexpr double kFootMm = 7;    // for the line to measure
constexpr double kPadMm = 2.2;
constexpr double kLineMm = 0.2;  // where labels are cut
constexpr double kLeastWidthMm = 30, kLeastHeightMm = 18;
constexpr double kWidestCodeMm = 24;
constexpr double kLeastModuleMm = 0.33;
constexpr double kDotMm =
    25.4 / 300;                  // modules are whole dots of a printer of 300 or 600 to the inch, and begin on one
constexpr double kCapMm = 1.75;  // how far the small type reaches above its base line
constexpr std::size_t kMostLines = 2;
constexpr double kSeamMm = 0.02;  // rows of modules overlap so much, or a hair of light shows between them
// Labels of this size and smaller have the plain sizes of type; on larger ones it grows with them.
constexpr double kUsualWidthMm = 64, kUsualHeightMm = 38, kLargestScale = 1.6;
constexpr double kHeadingPoints = 14, kLeastHeadingPoints = 8;
constexpr double kLinePoints = 8, kSmallPoints = 6.5;

/// The largest size, in half points, at which the text is no wider than there is room for.
double points_for(std::string_view text, Face face, double most, double least, double width_mm) {
  for (double points = most; points > least; points -= 0.5) {
    if (text_width_mm(text, face, points) <= width_mm) return points;
  }
  return least;
}

/// Draws one label into its box.
class LabelDrawer {
 public:
  LabelDrawer(Svg& svg, const Label& label, const Box& box) : svg_(svg), label_(label), box_(box) {
    inner_ = {box.x + kPadMm, box.y + kPadMm, box.width - 2 * kPadMm, box.height - 2 * kPadMm};
    scale_ = std::clamp(std::min(box.width / kUsualWidthMm, box.height / kUsualHeightMm), 1.0, kLargestScale);
  }

  Result<void> draw() {
    svg_.rect(box_, {Paint::none, Paint::rule, kLineMm});
    if (!label_.code.empty()) SHERD_CHECK(draw_code());
    draw_heading();
    draw_foot();
    draw_lines();
    return {};
  }

 private:
  double line_points() const { return kLinePoints * scale_; }

  Result<void> draw_code() {
    SHERD_TRY(const QrCode code, qr_code(label_.code));
    const double modules = static_cast<double>(code.side + 2 * kQuietModules);
    const double room = std::min({kWidestCodeMm * scale_, inner_.height * 0.72, inner_.width * 0.42});
    const double dots = std::max(std::ceil(kLeastModuleMm / kDotMm), std::floor(room / modules / kDotMm + 1e-9));
    const double module = dots * kDotMm;
    // The quiet zone may run into the label's own white rim.
    const double side = module * static_cast<double>(code.side), quiet = module * static_cast<double>(kQuietModules);
    const auto on_dot = [](double mm, auto round) { return round(mm / kDotMm) * kDotMm; };
    const Point corner{on_dot(box_.right() - quiet - side - kLineMm, [](double v) { return std::floor(v); }),
                       on_dot(box_.y + quiet + kLineMm, [](double v) { return std::ceil(v); })};
    for (std::size_t row = 0; row < code.side; ++row) {
      for (std::size_t from = 0; from < code.side;) {
        std::size_t to = from;
        while (to < code.side && code.at(row, to)) ++to;
        if (to > from) {
          svg_.rect({corner.x + module * static_cast<double>(from), corner.y + module * static_cast<double>(row),
                     module * static_cast<double>(to - from), module + kSeamMm},
                    {Paint::ink, Paint::none, 0});
        }
        from = to + 1;
      }
    }
    code_left_ = corner.x - quiet;
    code_bottom_ = corner.y + side + quiet;
    const double half = corner.x + side / 2;
    const std::string words = fitted(label_.code, Face::sans, kSmallPoints, side + 2 * quiet);
    // The words stand beneath the quiet zone, not in it.
    const double base = code_bottom_ + kCapMm;
    if (base + 0.4 < inner_.bottom())
      svg_.text({half, base}, words, {kSmallPoints, Face::sans, Paint::quiet, Anchor::middle});
    code_bottom_ = base + 0.6;
    return {};
  }

  double room_at(double y) const {
    const bool beside = !label_.code.empty() && y < code_bottom_ + 0.8;
    return (beside ? code_left_ : inner_.right()) - inner_.x;
  }

  void draw_heading() {
    y_ = inner_.y + line_mm(kSmallPoints) * 0.8 * scale_;
    const double small = points_for(label_.site, Face::sans, (kSmallPoints + 1) * scale_, kSmallPoints, room_at(y_));
    svg_.text({inner_.x, y_}, fitted(label_.site, Face::sans, small, room_at(y_)), {small, Face::sans, Paint::quiet});
    const double points =
        points_for(label_.heading, Face::sans_strong, kHeadingPoints * scale_, kLeastHeadingPoints, room_at(y_));
    y_ += line_mm(points) * 0.95;
    const std::string shown = fitted(label_.heading, Face::sans_strong, points, room_at(y_));
    svg_.text({inner_.x, y_}, shown, {points, Face::sans_strong}, shown == label_.heading ? "" : label_.heading);
    y_ += 1.2 * scale_;
  }

  void draw_foot() {
    foot_ = inner_.bottom();
    if (label_.to_sign) {
      const std::string words = "Back on";
      const double x = inner_.x + text_width_mm(words, Face::sans, line_points()) + 1.5, half = inner_.width / 2;
      svg_.text({inner_.x, foot_}, words, {line_points()});
      svg_.line({x, foot_}, {inner_.x + half - 2 * scale_, foot_}, Paint::ink_line, 0.2);
      svg_.text({inner_.x + half, foot_}, "by", {line_points()});
      svg_.line({inner_.x + half + 4.5 * scale_, foot_}, {inner_.right(), foot_}, Paint::ink_line, 0.2);
      foot_ -= line_mm(line_points()) + 1.5;
    }
    if (label_.warning.empty()) return;
    const std::string shown = fitted(label_.warning, Face::sans_strong, line_points(), inner_.width);
    svg_.text({inner_.x, foot_}, shown, {line_points(), Face::sans_strong, Paint::terminus},
              shown == label_.warning ? "" : label_.warning);
    foot_ -= line_mm(line_points());
  }

  /// Names in a narrow column, values behind them on up to two lines; smaller where there are many.
  void draw_lines() {
    const double usual = line_mm(line_points()) * 1.1;
    const double each = std::min(usual, (foot_ - y_) / std::max(1.0, lines_needed(line_points())));
    const double points = std::clamp(line_points() * each / usual * 1.1, 5.0, line_points());
    const double names = names_mm(points);
    for (const LabelLine& line : label_.lines) {
      const double room = room_at(y_) - names;
      const auto values = wrapped(line.value, Face::sans, points, room, kMostLines);
      for (std::size_t i = 0; i < values.size(); ++i) {
        y_ += each;
        if (y_ > foot_ + 0.05) return;
        if (i == 0)
          svg_.text({inner_.x, y_ - 0.3}, fitted(line.name, Face::sans, points, names - 1),
                    {points, Face::sans, Paint::quiet});
        svg_.text({inner_.x + names, y_ - 0.3}, values[i], {points, Face::sans},
                  i == 0 && values.size() > 1 ? line.value : "");
      }
    }
  }

  double names_mm(double points) const {
    double widest = 0;
    for (const LabelLine& line : label_.lines) widest = std::max(widest, text_width_mm(line.name, Face::sans, points));
    return std::min(widest, inner_.width * 0.4) + 1.6;
  }

  /// All of them taken for beside the code, where there is least room.
  double lines_needed(double points) const {
    double lines = 0;
    const double room = room_at(inner_.y) - names_mm(points);
    for (const LabelLine& line : label_.lines)
      lines += static_cast<double>(wrapped(line.value, Face::sans, points, room, kMostLines).size());
    return lines;
  }

  Svg& svg_;
  const Label& label_;
  Box box_, inner_;
  double scale_ = 1, y_ = 0, foot_ = 0, code_left_ = 0, code_bottom_ = 0;
};

void draw_measure(Svg& svg, const LabelSheet& sheet, std::size_t page, std::size_t pages) {
  const double y = sheet.sheet_height_mm - kMarginMm;
  svg.line({kMarginMm, y}, {kMarginMm + 50, y}, Paint::ink_line, 0.25);
  for (const double x : {kMarginMm, kMarginMm + 50}) svg.line({x, y - 1.2}, {x, y + 1.2}, Paint::ink_line, 0.25);
  svg.text({kMarginMm + 52, y + 0.9}, "50 mm when printed at 100 %", {kNotePoints, Face::sans, Paint::quiet});
  const std::string words = sheet.title + ", sheet " + std::to_string(page) + " of " + std::to_string(pages);
  svg.text({sheet.sheet_width_mm - kMarginMm, y + 0.9}, words, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
}

}  // namespace

Result<LabelGrid> label_grid(const LabelSheet& sheet) {
  const double width = sheet.sheet_width_mm - 2 * kMarginMm;
  const double height = sheet.sheet_height_mm - 2 * kMarginMm - kFootMm;
  const std::string size = format_fixed(sheet.width_mm, 0) + " by " + format_fixed(sheet.height_mm, 0) + " mm";
  if (!(sheet.width_mm >= kLeastWidthMm && sheet.height_mm >= kLeastHeightMm))
    return fail("label_too_small", "nothing could be read on a label of " + size, "labels are at least 30 by 18 mm");
  LabelGrid grid;
  grid.columns = static_cast<std::size_t>(std::max(0.0, std::floor((width + 0.01) / sheet.width_mm)));
  grid.rows = static_cast<std::size_t>(std::max(0.0, std::floor((height + 0.01) / sheet.height_mm)));
  if (grid.places() == 0)
    return fail("label_too_large", "a label of " + size + " does not go on the sheet", "choose a smaller label");
  grid.left_mm = (sheet.sheet_width_mm - static_cast<double>(grid.columns) * sheet.width_mm) / 2;
  grid.top_mm = kMarginMm;
  return grid;
}

Result<std::vector<std::string>> label_sheets(const LabelSheet& sheet) {
  SHERD_TRY(const LabelGrid grid, label_grid(sheet));
  const std::size_t start = sheet.start % grid.places();
  const std::size_t pages = std::max<std::size_t>(1, (start + sheet.labels.size() + grid.places() - 1) / grid.places());
  std::vector<std::string> out;
  for (std::size_t page = 0; page < pages; ++page) {
    Svg svg;
    for (std::size_t place = 0; place < grid.places(); ++place) {
      const std::size_t number = page * grid.places() + place;
      if (number < start || number - start >= sheet.labels.size()) continue;
      const Box box{grid.left_mm + static_cast<double>(place % grid.columns) * sheet.width_mm,
                    grid.top_mm + static_cast<double>(place / grid.columns) * sheet.height_mm, sheet.width_mm,
                    sheet.height_mm};
      SHERD_CHECK(LabelDrawer(svg, sheet.labels[number - start], box).draw());
    }
    draw_measure(svg, sheet, page + 1, pages);
    out.push_back(svg.finish(sheet.sheet_width_mm, sheet.sheet_height_mm, sheet.title));
  }
  return out;
}

}  // namespace sherd::figure
