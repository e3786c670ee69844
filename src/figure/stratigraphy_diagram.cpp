#include "figure/stratigraphy_diagram.h"

#include <algorithm>
#include <tuple>

#include "figure/frame.h"
#include "figure/shapes.h"
#include "figure/stratigraphy_boxes.h"
#include "figure/stratigraphy_lines.h"

namespace sherd::figure {
namespace {

constexpr double kTitleMm = 27, kTitleGapMm = 3;  // the column of phase titles, and what of it stays free
constexpr double kEdgeMm = 0.3;
constexpr double kKeyMm = 70, kWidestWordsMm = 350;
constexpr double kHeadingMm = 5;

// What the figure draws as an edge, in the order of the drawing's edges.
std::vector<const DiagramRelation*> drawn_relations(const StratigraphyFigure& figure) {
  std::vector<const DiagramRelation*> out;
  for (const DiagramRelation& r : figure.relations) {
    const bool known = r.later < figure.contexts.size() && r.earlier < figure.contexts.size() && r.later != r.earlier;
    if (known && (r.look != RelationLook::redundant || figure.with_redundant)) out.push_back(&r);
  }
  return out;
}

std::vector<const DiagramLink*> drawn_links(const StratigraphyFigure& figure) {
  std::vector<const DiagramLink*> out;
  for (const DiagramLink& l : figure.links) {
    if (l.a < figure.contexts.size() && l.b < figure.contexts.size() && l.a != l.b) out.push_back(&l);
  }
  return out;
}

const DiagramPhase* phase_of(const StratigraphyFigure& figure, const DiagramContext& c) {
  return c.phase && *c.phase < figure.phases.size() ? &figure.phases[*c.phase] : nullptr;
}

const std::string& area_of(const StratigraphyFigure& figure, const DiagramContext& c) {
  const DiagramPhase* phase = phase_of(figure, c);
  return phase && !phase->area.empty() ? phase->area : c.area;
}

// The areas that have contexts, by name, numbers by their size; contexts of no area last.
std::vector<std::string> areas_of(const StratigraphyFigure& figure) {
  std::vector<std::string> areas;
  for (const DiagramContext& c : figure.contexts) areas.push_back(area_of(figure, c));
  const auto key = [](const std::string& area) {
    const bool number = area.find_first_not_of("0123456789") == std::string::npos;
    return std::tuple(area.empty(), !number, number ? area.size() : 0, area);
  };
  std::ranges::sort(areas, {}, key);
  areas.erase(std::ranges::unique(areas).begin(), areas.end());
  return areas;
}

bool has_phases(const StratigraphyFigure& figure) {
  return std::ranges::any_of(figure.contexts, [&](const DiagramContext& c) { return phase_of(figure, c) != nullptr; });
}

// The figure while it is drawn: everything of `placed` is moved down beneath the keys.
class Drawer {
 public:
  Drawer(const StratigraphyFigure& figure, const layout::Placed& placed)
      : figure_(figure), placed_(placed), areas_(areas_of(figure)), relations_(drawn_relations(figure)) {
    for (std::size_t i = 0; i < relations_.size(); ++i) {
      any_against_ = any_against_ || (placed_.edges[i].upward && relations_[i]->look != RelationLook::loop);
    }
    has_phases_ = has_phases(figure);
    width_ = std::max(placed.width_mm + 0.3, kSingleColumnMm);
    words_width_ = std::min(width_, kWidestWordsMm);
  }

  std::string draw() {
    double top = draw_strip_key(svg_, figure_, 0, std::min(kKeyMm, width_));
    const bool any_unphased = has_phases_ && std::ranges::any_of(figure_.contexts, [&](const DiagramContext& c) {
                                return phase_of(figure_, c) == nullptr;
                              });
    const Legend legend = place_legend(diagram_legend(figure_, any_against_, any_unphased), words_width_);
    draw_legend(svg_, legend, top);
    top += legend.height + 1;
    if (areas_.size() > 1) {
      top += kHeadingMm;
      draw_headings(top);
    }
    shift_ = top;
    draw_bands();
    draw_lines();
    draw_boxes();
    const double bottom = draw_words(shift_ + placed_.height_mm + 1);
    return svg_.finish(width_, bottom, figure_.about.title);
  }

 private:
  std::vector<Point> moved(const std::vector<layout::Point>& points) const {
    std::vector<Point> out;
    out.reserve(points.size());
    for (const layout::Point& p : points) out.push_back({p.x, p.y + shift_});
    return out;
  }

  void draw_headings(double bottom) {
    for (const layout::PlacedLane& lane : placed_.lanes) {
      const std::string& area = areas_[lane.lane];
      const std::string words = area.empty() ? "No area" : "Area " + area;
      const std::string shown = fitted(words, Face::sans_strong, 9, lane.right - lane.left);
      svg_.text({lane.left, bottom - 1.4}, shown, {9, Face::sans_strong}, shown == words ? "" : words);
    }
  }

  void draw_bands() {
    std::vector<Segment> rules;
    for (const layout::PlacedBand& band : placed_.bands) {
      const Box box = {band.box.x, band.box.y + shift_, band.box.width, band.box.height};
      rules.push_back({{box.x, box.y}, {box.right(), box.y}});
      rules.push_back({{box.x, box.bottom()}, {box.right(), box.bottom()}});
    }
    svg_.lines(rules, Paint::other_line, 0.25);
  }

  void draw_band_title(const layout::PlacedBand& band) {
    const DiagramPhase& phase = figure_.phases[band.band];
    const double room = kTitleMm - kTitleGapMm;
    svg_.begin_mark("phase " + phase.phase + (phase.title.empty() ? "" : ": " + phase.title), phase.data_set);
    svg_.target({band.box.x, band.box.y + shift_, room, band.box.height});
    double y = band.box.y + shift_ + 4;
    const std::string name = fitted(phase.phase, Face::sans_strong, 9, room);
    svg_.text({band.box.x, y}, name, {9, Face::sans_strong, Paint::ink, Anchor::start, true},
              name == phase.phase ? "" : phase.phase);
    const auto lines = static_cast<std::size_t>(std::max((band.box.height - 5) / line_mm(kNamePoints), 1.0));
    for (const std::string& line : wrapped(phase.title, Face::sans, kNamePoints, room, lines)) {
      y += line_mm(kNamePoints);
      svg_.text({band.box.x, y}, line, {kNamePoints, Face::sans, Paint::ink, Anchor::start, true});
    }
    svg_.end_mark();
  }

  void draw_relation(const DiagramRelation& relation, const layout::Route& route) {
    const bool loop = relation.look == RelationLook::loop;
    std::string title = relation.words;
    if (relation.look == RelationLook::redundant) title += "; follows from the others";
    if (loop) title += "; part of a loop";
    if (route.upward && !loop) title += "; against the phases";
    svg_.begin_mark(title.empty() ? "relation" : title, relation.data_set);
    const std::vector<Point> points = moved(route.points);
    if (loop || route.upward) {
      draw_arrow(svg_, points);
    } else if (relation.look == RelationLook::redundant) {
      svg_.polyline(points, Paint::other_line, 0.25);
    } else {
      for (const std::vector<Point>& part : ink_.fresh(points)) svg_.polyline(part, Paint::ink_line, kEdgeMm);
      svg_.polyline(points, Paint::none, kEdgeMm);  // the whole of it, not seen until a page gives it a stroke
    }
    svg_.end_mark();
  }

  void draw_lines() {
    const std::vector<const DiagramLink*> links = drawn_links(figure_);
    for (std::size_t i = 0; i < links.size(); ++i) {
      svg_.begin_mark(links[i]->words.empty() ? "link" : links[i]->words, links[i]->data_set);
      draw_dashed(svg_, moved(placed_.links[i]), Paint::ink_line, kEdgeMm);
      svg_.end_mark();
    }
    const auto is_marked = [&](std::size_t i) {
      return placed_.edges[i].upward || relations_[i]->look == RelationLook::loop;
    };
    for (std::size_t i = 0; i < relations_.size(); ++i) {
      if (!is_marked(i)) draw_relation(*relations_[i], placed_.edges[i]);
    }
    for (const layout::Point& p : placed_.junctions) svg_.circle({p.x, p.y + shift_}, 0.45, {Paint::ink});
    for (std::size_t i = 0; i < relations_.size(); ++i) {
      if (is_marked(i)) draw_relation(*relations_[i], placed_.edges[i]);
    }
  }

  void draw_boxes() {
    for (const layout::PlacedBand& band : placed_.bands) draw_band_title(band);
    const std::optional<YearScale> scale = strip_scale(figure_, 0, 1);
    for (std::size_t i = 0; i < figure_.contexts.size(); ++i) {
      const layout::Box& box = placed_.nodes[i];
      const bool dashed = has_phases_ && phase_of(figure_, figure_.contexts[i]) == nullptr;
      draw_context(svg_, figure_.contexts[i], {box.x, box.y + shift_, box.width, box.height}, scale, dashed);
    }
  }

  double draw_words(double top) {
    std::vector<std::string> red = figure_.loops;
    if (any_against_) {
      std::string against;
      for (std::size_t i = 0; i < relations_.size(); ++i) {
        if (!placed_.edges[i].upward || relations_[i]->look == RelationLook::loop) continue;
        against += (against.empty() ? "" : "; ") + relations_[i]->words;
      }
      red.push_back("Against the phases: " + against + ".");
    }
    constexpr std::size_t kMostLines = 40;
    for (const std::string& sentence : red) {
      for (const std::string& line : wrapped(sentence, Face::sans, kNamePoints, words_width_, kMostLines)) {
        top += line_mm(kNamePoints);
        svg_.text({0, top}, line, {kNamePoints, Face::sans, Paint::terminus});
      }
    }
    const std::vector<std::string> notes = note_lines(figure_.about.left_out, words_width_);
    draw_notes(svg_, notes, top + 1);
    return top + 1 + notes_mm(notes);
  }

  const StratigraphyFigure& figure_;
  const layout::Placed& placed_;
  std::vector<std::string> areas_;
  std::vector<const DiagramRelation*> relations_;
  Svg svg_;
  SharedInk ink_;
  bool any_against_ = false, has_phases_ = false;
  double width_ = 0, words_width_ = 0, shift_ = 0;
};

}  // namespace

layout::Drawing drawing_of(const StratigraphyFigure& figure) {
  layout::Drawing drawing;
  const std::vector<std::string> areas = areas_of(figure);
  const bool with_strip = strip_scale(figure, 0, 1).has_value();
  for (const DiagramContext& c : figure.contexts) {
    layout::Node node{context_width_mm(c), context_height_mm(with_strip), 0, std::nullopt};
    node.lane = static_cast<std::uint32_t>(std::ranges::find(areas, area_of(figure, c)) - areas.begin());
    if (phase_of(figure, c)) node.band = static_cast<std::uint32_t>(*c.phase);
    drawing.nodes.push_back(node);
  }
  for (const DiagramRelation* r : drawn_relations(figure)) {
    drawing.edges.push_back(
        {static_cast<std::uint32_t>(r->later), static_cast<std::uint32_t>(r->earlier), r->look != RelationLook::order});
  }
  for (const DiagramLink* l : drawn_links(figure)) {
    drawing.links.push_back({static_cast<std::uint32_t>(l->a), static_cast<std::uint32_t>(l->b)});
  }
  if (has_phases(figure)) drawing.lane_margin_mm = kTitleMm;
  return drawing;
}

std::string stratigraphy_diagram(const StratigraphyFigure& figure, const layout::Placed& placed) {
  if (figure.contexts.empty()) return empty_figure(figure.about, {}, "No contexts");
  return Drawer(figure, placed).draw();
}

}  // namespace sherd::figure
