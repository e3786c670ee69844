#include "methods/vessel/section_lines.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "base/text.h"
#include "methods/vessel/polyline.h"

namespace sherd::vessel {

namespace {

constexpr double kOnAxis = 0.5;  // mm
constexpr std::size_t kMostLines = 2000;

enum class Part { outer, inner, handle, handle_section, axis, ring, unsaid };

/// By a word anywhere in the line's name; the more telling words first.
Part part_of(const DrawnLine& line) {
  static constexpr std::array<std::pair<std::string_view, Part>, 14> kWords{{{"handle_section", Part::handle_section},
                                                                             {"handle-section", Part::handle_section},
                                                                             {"handle section", Part::handle_section},
                                                                             {"handle", Part::handle},
                                                                             {"axis", Part::axis},
                                                                             {"centre", Part::axis},
                                                                             {"center", Part::axis},
                                                                             {"outer", Part::outer},
                                                                             {"outside", Part::outer},
                                                                             {"exterior", Part::outer},
                                                                             {"inner", Part::inner},
                                                                             {"inside", Part::inner},
                                                                             {"interior", Part::inner},
                                                                             {"section", Part::ring}}};
  const std::string name = lower(line.name);
  for (const auto& [word, part] : kWords) {
    if (name.find(word) != std::string::npos) return part;
  }
  return Part::unsaid;
}

double area_of(const Outline& line) {
  double area = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const OutlinePoint& a = line[i];
    const OutlinePoint& b = line[(i + 1) % line.size()];
    area += a.r_mm * b.z_mm - b.r_mm * a.z_mm;
  }
  return std::abs(area) / 2;
}

double mean_r(const Outline& line) {
  double weighted = 0;
  double length = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double step = distance(line[i - 1], line[i]);
    weighted += step * (line[i - 1].r_mm + line[i].r_mm) / 2;
    length += step;
  }
  return length > 0 ? weighted / length : 0;
}

/// Lines of one side made one, each next to the end that is nearest.
Outline chained(std::vector<Outline> lines) {
  if (lines.empty()) return {};
  const auto longest = std::ranges::max_element(lines, {}, [](const Outline& line) { return length_of(line); });
  Outline chain = *longest;
  lines.erase(longest);
  while (!lines.empty()) {
    double best = 1e300;
    std::size_t which = 0;
    int how = 0;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::array<double, 4> gaps{
          distance(chain.back(), lines[i].front()), distance(chain.back(), lines[i].back()),
          distance(chain.front(), lines[i].back()), distance(chain.front(), lines[i].front())};
      const auto nearest = std::ranges::min_element(gaps);
      if (*nearest >= best) continue;
      best = *nearest;
      which = i;
      how = static_cast<int>(nearest - gaps.begin());
    }
    Outline next = lines[which];
    lines.erase(lines.begin() + static_cast<std::ptrdiff_t>(which));
    if (how == 1 || how == 3) std::ranges::reverse(next);
    if (how < 2) {
      chain.insert(chain.end(), next.begin(), next.end());
    } else {
      // What was the beginning is now the end of a stretch, which its own line says how it is drawn.
      chain.insert(chain.begin(), next.begin(), next.end());
    }
  }
  return chain;
}

/// The lines by what they are; y up, conjecture noted.
struct Sorted {
  std::vector<Outline> outer, inner, handle, handle_section, rings, open;
  std::optional<double> axis_x;
};

Sorted sort_lines(const std::vector<DrawnLine>& lines) {
  Sorted sorted;
  for (const DrawnLine& line : lines) {
    Outline outline = line.points;
    const bool conjectured = line.dashed || lower(line.name).find("conject") != std::string::npos;
    for (OutlinePoint& point : outline) {
      point.z_mm = -point.z_mm;
      point.conjectured = conjectured;
    }
    Part part = part_of(line);
    if (part == Part::ring && !line.closed) part = Part::unsaid;
    if (part == Part::axis) {
      double x = 0;
      for (const OutlinePoint& point : outline) x += point.r_mm / static_cast<double>(outline.size());
      sorted.axis_x = x;
    } else if (part == Part::outer || part == Part::inner) {
      (part == Part::outer ? sorted.outer : sorted.inner).push_back(std::move(outline));
    } else if (part == Part::handle || part == Part::handle_section) {
      (part == Part::handle ? sorted.handle : sorted.handle_section).push_back(std::move(outline));
    } else if (part == Part::ring || line.closed) {
      sorted.rings.push_back(std::move(outline));
    } else {
      sorted.open.push_back(std::move(outline));
    }
  }
  return sorted;
}

/// From the drawing's units to millimetres about the axis. `sign`: 1 where r grows to the right.
struct Frame {
  double axis_x = 0, mm = 1, sign = 1;

  void apply(Outline& line) const {
    for (OutlinePoint& point : line) {
      point.r_mm = sign * (point.r_mm - axis_x) * mm;
      point.z_mm *= mm;
    }
  }
};

Result<double> millimetres(const DrawingFacts& facts) {
  const double unit = facts.mm_per_unit.value_or(facts.in_mm ? facts.reduction : 0.0);
  if (std::isfinite(unit) && unit > 0) return unit;
  return fail("no_scale", "the drawing does not say its scale",
              "give its size in mm in the file, or say how many millimetres one of its units is");
}

/// All lines that are part of the pot.
std::vector<Outline*> pot_lines(Sorted& sorted) {
  std::vector<Outline*> all;
  for (auto* group : {&sorted.outer, &sorted.inner, &sorted.rings, &sorted.open}) {
    for (Outline& line : *group) all.push_back(&line);
  }
  return all;
}

Result<Frame> frame_of(Sorted& sorted, const DrawingFacts& facts) {
  Frame frame;
  SHERD_TRY(frame.mm, millimetres(facts));
  double middle = 0;
  double length = 0;
  OutlinePoint top{0, -1e300};
  for (const Outline* line : pot_lines(sorted)) {
    const double own = length_of(*line);
    middle += own * mean_r(*line);
    length += own;
    for (const OutlinePoint& point : *line) top = point.z_mm > top.z_mm ? point : top;
  }
  if (length <= 0) return fail("no_side", "the drawing has no line that could be a side of a section");
  middle /= length;
  const auto axis = facts.axis_x ? facts.axis_x : sorted.axis_x;
  if (axis) {
    frame.axis_x = *axis;
    frame.sign = middle >= *axis ? 1 : -1;
    return frame;
  }
  if (!facts.rim_radius_mm)
    return fail("no_axis", "the drawing does not say where the vessel's axis is",
                "draw it as a line with the id \"axis\", or give the diameter of the rim");
  // Without an axis: outwards is from the inner to the outer side, else to the left, where sections are drawn.
  frame.sign = -1;
  if (!sorted.outer.empty() && !sorted.inner.empty())
    frame.sign = mean_r(sorted.outer.front()) >= mean_r(sorted.inner.front()) ? 1 : -1;
  frame.axis_x = top.r_mm - frame.sign * *facts.rim_radius_mm / frame.mm;
  return frame;
}

}  // namespace

Result<Section> split_ring(const std::vector<OutlinePoint>& closed) {
  Outline ring = closed;
  if (ring.size() > 1 && distance(ring.front(), ring.back()) < 1e-9) ring.pop_back();
  if (ring.size() < 4) return fail("no_side", "the closed outline has fewer than four points");
  const auto top = std::ranges::max_element(ring, {}, &OutlinePoint::z_mm);
  std::ranges::rotate(ring, top);
  ring.push_back(ring.front());
  // The foot: the stretch along the axis, which belongs to neither side, else the lowest point.
  std::size_t foot = 0;
  double longest = 0;
  for (std::size_t i = 1; i < ring.size(); ++i) {
    const bool along_axis = std::abs(ring[i].r_mm) <= kOnAxis && std::abs(ring[i - 1].r_mm) <= kOnAxis;
    if (!along_axis || distance(ring[i - 1], ring[i]) <= longest) continue;
    longest = distance(ring[i - 1], ring[i]);
    foot = i;
  }
  const auto at = [](std::size_t i) { return static_cast<std::ptrdiff_t>(i); };
  Outline first, second;
  if (foot > 0) {
    first.assign(ring.begin(), ring.begin() + at(foot));
    second.assign(ring.begin() + at(foot), ring.end());
  } else {
    const auto lowest =
        static_cast<std::size_t>(std::ranges::min_element(ring, {}, &OutlinePoint::z_mm) - ring.begin());
    first.assign(ring.begin(), ring.begin() + at(lowest) + 1);
    second.assign(ring.begin() + at(lowest), ring.end());
  }
  Section section;
  const bool first_outside = mean_r(first) > mean_r(second);
  section.outer = first_outside ? first : second;
  section.inner = first_outside ? second : first;
  return section;
}

Result<Section> section_from_lines(const std::vector<DrawnLine>& lines, const DrawingFacts& facts) {
  if (lines.size() > kMostLines)
    return fail("too_many_lines", "the drawing has more than 2,000 lines",
                "leave the hatching out: a section needs its outlines and the axis alone");
  Sorted sorted = sort_lines(lines);
  SHERD_TRY(const Frame frame, frame_of(sorted, facts));
  for (Outline* line : pot_lines(sorted)) frame.apply(*line);
  Section section;
  section.outer = chained(sorted.outer);
  section.inner = chained(sorted.inner);
  if (section.outer.empty() && section.inner.empty() && !sorted.rings.empty()) {
    SHERD_TRY(section, split_ring(*std::ranges::max_element(sorted.rings, {}, area_of)));
  } else if (section.outer.empty() && section.inner.empty()) {
    std::ranges::sort(sorted.open, std::greater{}, [](const Outline& line) { return length_of(line); });
    if (sorted.open.size() == 1) {
      section.outer = sorted.open[0];
    } else {
      const bool first_outside = mean_r(sorted.open[0]) >= mean_r(sorted.open[1]);
      section.outer = sorted.open[first_outside ? 0 : 1];
      section.inner = sorted.open[first_outside ? 1 : 0];
    }
  }
  for (Outline& handle : sorted.handle) {
    frame.apply(handle);
    if (handle.size() > section.handle.size()) section.handle = handle;
  }
  if (!sorted.handle_section.empty()) {
    section.handle_section = sorted.handle_section.front();
    double x = 0;
    double y = 0;
    const auto n = static_cast<double>(section.handle_section.size());
    for (const OutlinePoint& point : section.handle_section) {
      x += point.r_mm / n;
      y += point.z_mm / n;
    }
    for (OutlinePoint& point : section.handle_section)
      point = {(point.r_mm - x) * frame.mm, (point.z_mm - y) * frame.mm, point.conjectured};
  }
  return tidy_section(std::move(section));
}

}  // namespace sherd::vessel
