#include "figure/point_labels.h"

#include <algorithm>
#include <array>

#include "figure/axis.h"

namespace sherd::figure {
namespace {

constexpr double kGapMm = 0.5;
constexpr double kApartMm = 0.8;                   // between names side by side
constexpr double kAscent = 0.76, kDescent = 0.23;  // of the type's size, with the accents of capitals left out

bool meet(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

bool within(const Box& inner, const Box& outer) {
  return inner.x >= outer.x && inner.right() <= outer.right() && inner.y >= outer.y && inner.bottom() <= outer.bottom();
}

struct Trial {
  PlacedLabel label;
  Box box;
};

// Right, left, above, below, then between: where a reader looks first.
std::array<Trial, 8> trials(const Labelled& mark) {
  const double size = kTickPoints * kMmPerPoint, width = text_width_mm(mark.text, Face::sans, kTickPoints);
  const double out = mark.radius_mm + kGapMm, slant = 0.75 * mark.radius_mm + 0.3;
  const double middle = mark.at.y + (kAscent - kDescent) / 2 * size;
  const double up = mark.at.y - out - kDescent * size, down = mark.at.y + out + kAscent * size;
  const std::array<PlacedLabel, 8> places{{{{mark.at.x + out, middle}, Anchor::start},
                                           {{mark.at.x - out, middle}, Anchor::end},
                                           {{mark.at.x, up}, Anchor::middle},
                                           {{mark.at.x, down}, Anchor::middle},
                                           {{mark.at.x + slant, up + 0.4}, Anchor::start},
                                           {{mark.at.x + slant, down - 0.4}, Anchor::start},
                                           {{mark.at.x - slant, up + 0.4}, Anchor::end},
                                           {{mark.at.x - slant, down - 0.4}, Anchor::end}}};
  std::array<Trial, 8> out_trials;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double before = places[i].anchor == Anchor::start    ? 0
                          : places[i].anchor == Anchor::middle ? width / 2
                                                               : width;
    out_trials[i] = {places[i],
                     {places[i].at.x - before, places[i].at.y - kAscent * size, width, (kAscent + kDescent) * size}};
  }
  return out_trials;
}

}  // namespace

std::vector<std::optional<PlacedLabel>> place_labels(const std::vector<Labelled>& marks, const Box& area,
                                                     const std::vector<Box>& taken, const std::vector<Box>& lines) {
  std::vector<Box> boxes = taken;
  for (const Labelled& mark : marks) {
    const double r = mark.radius_mm;
    boxes.push_back({mark.at.x - r, mark.at.y - r, 2 * r, 2 * r});
  }
  const auto is_free = [](const Box& box, const std::vector<Box>& of) {
    return std::ranges::none_of(of, [&](const Box& other) { return meet(box, other); });
  };
  std::vector<std::optional<PlacedLabel>> out(marks.size());
  for (std::size_t i = 0; i < marks.size(); ++i) {
    if (marks[i].text.empty()) continue;
    std::optional<Trial> second;
    for (const Trial& trial : trials(marks[i])) {
      if (!within(trial.box, area) || !is_free(trial.box, boxes)) continue;
      const bool clear = is_free(trial.box, lines);
      if (!second || clear) second = trial;
      if (clear) break;
    }
    if (!second) continue;
    out[i] = second->label;
    const Box& box = second->box;
    boxes.push_back({box.x - kApartMm, box.y, box.width + 2 * kApartMm, box.height});
  }
  return out;
}

}  // namespace sherd::figure
