#include "figure/object_card.h"

#include <algorithm>
#include <cmath>

#include "figure/frame.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kA6Width = 105, kA6Height = 148.5;
constexpr double kPadMm = 7;
constexpr double kPictureMm = 43, kLeastPictureMm = 26;
constexpr double kUsualPoints = 9.5, kLeastPoints = 7;
constexpr std::size_t kAllLines = 60;
constexpr std::int64_t kRoundYears = 500;

/// First and last year of a line of years.
struct Span {
  std::int64_t from = 0, to = 2000;
  double at(std::int64_t year, double width) const {
    const double part = static_cast<double>(year - from) / static_cast<double>(to - from);
    return width * std::clamp(part, 0.0, 1.0);
  }
};

Span span_of(const YearRange& all, Year now) {
  const std::int64_t first = all.earliest ? all.earliest->value : all.latest ? all.latest->value : 0;
  Span span;
  span.from = static_cast<std::int64_t>(std::floor(static_cast<double>(first) / kRoundYears)) * kRoundYears;
  span.to = std::max(now.value, span.from + kRoundYears);
  return span;
}

/// A line of years with the years of making on it, `k` times its usual size. Takes 9 mm.
void draw_years(Svg& svg, Point at, double width, const YearRange& years, const Span& span, double k) {
  const double y = at.y + 3.4 * k, points = 6.5 * k;
  svg.line({at.x, y}, {at.x + width, y}, Paint::axis, 0.3 * k);
  double free_from = -1e9;
  for (std::int64_t year = span.from; year <= span.to; year += kRoundYears) {
    const double x = at.x + span.at(year, width);
    const std::string words = year_text(Year{year == 0 ? 1 : year});
    const double half = text_width_mm(words, Face::sans, points) / 2;
    const double middle = std::clamp(x, at.x + half, at.x + width - half);
    svg.line({x, y}, {x, y + 1.1 * k}, Paint::axis, 0.25 * k);
    if (middle - half < free_from || (span.to - year < kRoundYears / 3 && year != span.to)) continue;
    svg.text({middle, y + 3.9 * k}, words, {points, Face::sans, Paint::quiet, Anchor::middle});
    free_from = middle + half + 1.5 * k;
  }
  const double now_half = text_width_mm("today", Face::sans, points);
  if (at.x + width - now_half > free_from)
    svg.text({at.x + width, y + 3.9 * k}, "today", {points, Face::sans, Paint::quiet, Anchor::end});
  if (years.empty()) return;
  const double left = years.earliest ? span.at(years.earliest->value, width) : 0;
  const double right = years.latest ? span.at(years.latest->value, width) : width;
  const double wide = std::max(right - left, 0.8 * k);
  svg.rect({at.x + std::min(left, width - wide), y - 2.6 * k, wide, 2.6 * k}, {Paint::c2, Paint::none});
}

class Card {
 public:
  Card(Svg& svg, const ObjectCard& card, Point corner, double k, const Span& span)
      : svg_(svg), card_(card), x_(corner.x + kPadMm * k), y_(corner.y + kPadMm * k), k_(k), span_(span) {
    width_ = (kA6Width - 2 * kPadMm) * k;
    bottom_ = corner.y + (kA6Height - kPadMm) * k;
  }

  /// False where not all of its text could be shown.
  bool draw() {
    svg_.begin_mark(card_.title, card_.record.empty() ? "" : "record=" + card_.record);
    draw_heading();
    draw_foot();
    const double text_points = choose_points();
    draw_picture();
    draw_years(svg_, {x_, y_}, width_, card_.years, span_, k_);
    y_ += 9.5 * k_;
    const bool whole = draw_texts(text_points);
    svg_.end_mark();
    return whole;
  }

 private:
  void draw_heading() {
    double points = 21 * k_;
    while (points > 12 * k_ && text_width_mm(card_.title, Face::serif, points) > width_) points -= 0.5 * k_;
    y_ += 5 * k_;
    svg_.text({x_, y_}, fitted(card_.title, Face::serif, points, width_), {points, Face::serif}, card_.title);
    y_ += 4.6 * k_;
    svg_.text({x_, y_}, fitted(card_.kicker, Face::sans, 8 * k_, width_), {8 * k_, Face::sans, Paint::quiet});
    y_ += 2.5 * k_;
  }

  void draw_foot() {
    const double points = 6.5 * k_;
    svg_.text({x_, bottom_}, fitted(card_.foot, Face::sans, points, width_), {points, Face::sans, Paint::quiet});
    bottom_ -= 4 * k_;
    if (card_.caution.empty()) return;
    const double size = 7.5 * k_;
    auto lines = wrapped(card_.caution, Face::sans_strong, size, width_, 3);
    for (auto line = lines.rbegin(); line != lines.rend(); ++line) {
      svg_.text({x_, bottom_}, *line, {size, Face::sans_strong, Paint::terminus});
      bottom_ -= line_mm(size);
    }
    bottom_ -= 0.8 * k_;
  }

  double texts_mm(double points) const {
    double all = 0;
    for (const CardText& text : card_.texts) {
      const auto lines = wrapped(text.text, Face::serif, points + 1 * k_, width_, kAllLines);
      all += (static_cast<double>(lines.size()) + 1.15) * line_mm(points + 1 * k_) * 0.98;
    }
    return all;
  }

  /// The largest type, and then the largest picture, that all of the text leaves room for.
  double choose_points() {
    const double room = bottom_ - y_ - 9.5 * k_ - 2.5 * k_;
    const double least = kLeastPictureMm * k_, most = kPictureMm * k_;
    for (double points = kUsualPoints * k_; points >= kLeastPoints * k_; points -= 0.25 * k_) {
      const double left = room - texts_mm(points);
      const bool last = points - 0.25 * k_ < kLeastPoints * k_;
      const double wanted = points > 8.25 * k_ ? most * 0.8 : least;
      if (left < wanted && !last) continue;
      picture_mm_ = std::clamp(left, least * 0.8, most);
      return points;
    }
    picture_mm_ = least * 0.8;
    return kLeastPoints * k_;
  }

  void draw_picture() {
    const double words = card_.picture_words.empty() ? 0 : 3.6 * k_;
    const Box box{x_, y_ + 1.5 * k_, width_, picture_mm_ - words - 1.5 * k_};
    draw_card_picture(box);
    if (words > 0)
      svg_.text({x_ + width_ / 2, y_ + picture_mm_ - 0.6 * k_},
                fitted(card_.picture_words, Face::sans, 6.5 * k_, width_),
                {6.5 * k_, Face::sans, Paint::quiet, Anchor::middle});
    y_ += picture_mm_ + 2 * k_;
  }

 public:
  void draw_card_picture(const Box& box) {
    if (card_.photo) {
      svg_.picture(box, card_.photo->mime, card_.photo->bytes, card_.title);
      return;
    }
    if (!card_.drawing) {
      const double height = std::min(box.height, box.width / 2.1);
      draw_sherd(svg_,
                 {box.x + (box.width - 2.1 * height) / 2, box.y + (box.height - height) / 2, 2.1 * height, height},
                 card_.sherd, card_.seed);
      return;
    }
    DrawingSettings settings;
    settings.measures = false;
    const double bar = ScaleBar::kHeightMm + 1;
    for (settings.scale = 1; settings.scale < 60; settings.scale += settings.scale < 4 ? 0.5 : 1) {
      VesselDrawing plain = *card_.drawing;
      plain.number.clear();
      const DrawnVessel vessel(plain, settings);
      const VesselExtent& e = vessel.extent();
      if (e.width() > box.width || e.height() > box.height - bar) continue;
      vessel.draw(
          svg_, {box.x + (box.width - e.width()) / 2 + e.left, box.y + (box.height - bar - e.height()) / 2 + e.above});
      const ScaleBar scale(settings.scale);
      scale.draw(svg_, {box.x + (box.width - scale.width_mm()) / 2, box.bottom() - ScaleBar::kHeightMm});
      return;
    }
  }

 private:
  bool draw_texts(double points) {
    const double body = points + 1 * k_, step = line_mm(body) * 0.98;
    for (const CardText& text : card_.texts) {
      y_ += step * 0.95;
      if (y_ > bottom_) return false;
      svg_.text({x_, y_}, fitted(text.heading, Face::sans_strong, points * 0.86, width_),
                {points * 0.86, Face::sans_strong, Paint::quiet});
      const auto lines = wrapped(text.text, Face::serif, body, width_, kAllLines);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        y_ += step;
        if (y_ > bottom_ + 0.1) return false;
        const bool last_that_fits = y_ + step > bottom_ + 0.1 && i + 1 < lines.size();
        svg_.text({x_, y_}, last_that_fits ? lines[i] + " \u2026" : lines[i], {body, Face::serif});
      }
      y_ += step * 0.2;
    }
    return true;
  }

  Svg& svg_;
  const ObjectCard& card_;
  double x_, y_, k_;
  Span span_;
  double width_ = 0, bottom_ = 0, picture_mm_ = kPictureMm;
};

YearRange all_years(const std::vector<ObjectCard>& cards) {
  YearRange all;
  for (const ObjectCard& card : cards) {
    const auto& from = card.years.earliest ? card.years.earliest : card.years.latest;
    if (from && (!all.earliest || *from < *all.earliest)) all.earliest = from;
  }
  return all;
}

}  // namespace

CardPages object_cards(const CardSet& set) {
  CardPages out;
  const Span span = span_of(all_years(set.cards), set.now);
  const bool sheet = set.paper == CardPaper::sheet;
  const double k = set.paper == CardPaper::a4 ? 2 : 1;
  const std::size_t each = sheet ? 4 : 1;
  const double width = kA6Width * (set.paper == CardPaper::a6 ? 1 : 2),
               height = kA6Height * (set.paper == CardPaper::a6 ? 1 : 2);
  for (std::size_t first = 0; first < set.cards.size(); first += each) {
    Svg svg;
    const std::size_t last = std::min(first + each, set.cards.size());
    for (std::size_t i = first; i < last; ++i) {
      const std::size_t place = i - first;
      const Point corner{static_cast<double>(place % 2) * kA6Width, static_cast<double>(place / 2) * kA6Height};
      if (!Card(svg, set.cards[i], corner, k, span).draw()) out.shortened.push_back(set.cards[i].title);
    }
    if (sheet) {  // where to cut
      svg.lines(std::vector<Segment>{{{kA6Width, 4}, {kA6Width, height - 4}}, {{4, kA6Height}, {width - 4, kA6Height}}},
                Paint::rule, 0.25);
    }
    out.pages.push_back(svg.finish(width, height, sheet ? "Object cards" : set.cards[first].title));
  }
  return out;
}

std::string years_strip(const YearRange& years, const YearRange& all, Year now, double width_mm) {
  Svg svg;
  draw_years(svg, {0.5, 0.5}, width_mm - 1, years, span_of(all, now), 1);
  return svg.finish(width_mm, 9.5, years.empty() ? "Not dated" : "Made " + range_text(years));
}

std::string card_picture(const ObjectCard& card) {
  Svg svg;
  const double width = kA6Width - 2 * kPadMm;
  svg.begin_mark(card.title, card.record.empty() ? "" : "record=" + card.record);
  Card(svg, card, {0, 0}, 1, {}).draw_card_picture({0.5, 0.5, width - 1, kPictureMm});
  svg.end_mark();
  return svg.finish(width, kPictureMm + 1, card.title);
}

}  // namespace sherd::figure
