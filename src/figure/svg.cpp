#include "figure/svg.h"

#include <algorithm>
#include <cmath>

#include "base/base64.h"
#include "base/numbers.h"
#include "figure/utf8.h"

namespace sherd::figure {
namespace {

constexpr double kUnitsPerMm = 10;
constexpr std::string_view kReplacement = "\uFFFD";

// The Char production of XML 1.0 (fifth edition), section 2.2, without the controls that it discourages.
bool is_xml_character(char32_t c) {
  if (c < 0x20 || (c >= 0x7F && c <= 0x9F)) return false;
  return c != 0xFFFE && c != 0xFFFF;
}

std::string_view escape_of(char c) {
  switch (c) {
    case '&':
      return "&amp;";
    case '<':
      return "&lt;";
    case '>':
      return "&gt;";
    case '"':
      return "&quot;";
    default:
      return {};
  }
}

std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + std::string(value) + "\"";
}
std::string length(std::string_view name, double mm) { return attribute(name, units(mm)); }

// Class and presentation attributes of a shape.
std::string attributes(const Look& look) {
  std::string classes(class_of(look.fill));
  if (look.outline != Paint::none) {
    classes += (classes.empty() ? "" : " ") + std::string(class_of(look.outline));
  }
  std::string out = classes.empty() ? "" : attribute("class", classes);
  out += attribute("fill", colour(look.fill, Scheme::print));
  if (look.opacity < 1) out += attribute("fill-opacity", format_fixed(std::max(look.opacity, 0.0), 2));
  if (look.outline == Paint::none) return out;
  out += attribute("stroke", colour(look.outline, Scheme::print)) + length("stroke-width", look.line_mm);
  if (look.dashed) out += attribute("stroke-dasharray", "8 6");
  if (look.dotted) out += attribute("stroke-dasharray", "0.1 8");
  return out;
}

std::string corner(std::string_view command, Point p) { return std::string(command) + units(p.x) + " " + units(p.y); }

std::string path_through(std::span<const Point> points) {
  std::string d;
  for (std::size_t i = 0; i < points.size(); ++i) d += corner(i == 0 ? "M" : " L", points[i]);
  return d;
}

}  // namespace

std::string xml_text(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    const std::string_view escape = escape_of(text[at]);
    if (!is_xml_character(c.code)) {
      out += ' ';
    } else if (c.code == 0xFFFD) {
      out += kReplacement;
    } else if (!escape.empty()) {
      out += escape;
    } else {
      out += text.substr(at, c.bytes);
    }
    at += c.bytes;
  }
  return out;
}

std::string units(double mm) {
  if (!std::isfinite(mm)) return "0";
  std::string text = format_fixed(mm * kUnitsPerMm, 2);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text.empty() || text == "-" || text == "-0" ? "0" : text;
}

void Svg::rect(const Box& box, const Look& look) {
  body_ += "<rect" + length("x", box.x) + length("y", box.y) + length("width", box.width) +
           length("height", box.height) + attributes(look) + "/>\n";
}

void Svg::circle(Point centre, double radius_mm, const Look& look) {
  body_ +=
      "<circle" + length("cx", centre.x) + length("cy", centre.y) + length("r", radius_mm) + attributes(look) + "/>\n";
}

void Svg::line(Point from, Point to, Paint outline, double line_mm) {
  body_ += "<line" + length("x1", from.x) + length("y1", from.y) + length("x2", to.x) + length("y2", to.y) +
           attributes({Paint::none, outline, line_mm}) + "/>\n";
}

void Svg::lines(std::span<const Segment> segments, Paint outline, double line_mm) {
  if (segments.empty()) return;
  std::string d;
  for (const Segment& s : segments) d += corner(d.empty() ? "M" : " M", s.from) + corner(" L", s.to);
  body_ += "<path" + attribute("d", d) + attributes({Paint::none, outline, line_mm}) + "/>\n";
}

void Svg::polygon(std::span<const Point> corners, const Look& look) {
  if (corners.empty()) return;
  body_ += "<path" + attribute("d", path_through(corners) + " Z") + attributes(look) + "/>\n";
}

void Svg::polyline(std::span<const Point> points, Paint outline, double line_mm) {
  if (points.empty()) return;
  body_ += "<path" + attribute("d", path_through(points)) + attributes({Paint::none, outline, line_mm}) + "/>\n";
}

void Svg::strokes(std::span<const std::vector<Point>> lines, const Look& look) {
  std::string d;
  for (const std::vector<Point>& line : lines) d += line.empty() ? "" : (d.empty() ? "" : " ") + path_through(line);
  if (d.empty()) return;
  body_ +=
      "<path" + attribute("d", d) +
      attributes({.outline = look.outline, .line_mm = look.line_mm, .dashed = look.dashed, .dotted = look.dotted}) +
      attribute("stroke-linecap", "round") + attribute("stroke-linejoin", "round") + "/>\n";
}

void Svg::tint(std::span<const Point> corners, std::string_view colour, double opacity) {
  if (corners.empty()) return;
  body_ += "<path" + attribute("d", path_through(corners) + " Z") + attribute("fill", xml_text(colour)) +
           attribute("fill-opacity", format_fixed(opacity, 2)) + "/>\n";
}

void Svg::text(Point at, std::string_view text, const TextLook& look, std::string_view in_full) {
  if (text.empty()) return;
  if (look.plate) plate_behind(at, text, look);
  body_ += "<text" + length("x", at.x) + length("y", at.y) + length("font-size", look.points * kMmPerPoint);
  if (look.face == Face::sans_strong) body_ += attribute("font-weight", "600");
  if (look.face == Face::serif || look.face == Face::serif_italic)
    body_ += attribute("font-family", "EB Garamond, serif");
  if (look.face == Face::serif_italic) body_ += attribute("font-style", "italic");
  if (look.anchor == Anchor::middle) body_ += attribute("text-anchor", "middle");
  if (look.anchor == Anchor::end) body_ += attribute("text-anchor", "end");
  if (look.turned) body_ += attribute("transform", "rotate(-90 " + units(at.x) + " " + units(at.y) + ")");
  body_ += attributes({look.paint}) + ">";
  if (!in_full.empty()) body_ += "<title>" + xml_text(in_full) + "</title>";
  body_ += xml_text(text) + "</text>\n";
}

void Svg::plate_behind(Point at, std::string_view text, const TextLook& look) {
  constexpr double kMargin = 0.25;
  const double width = text_width_mm(text, look.face, look.points), size = look.points * kMmPerPoint;
  const double before = look.anchor == Anchor::start ? 0 : look.anchor == Anchor::middle ? width / 2 : width;
  const double left = std::max(at.x - before - kMargin, 0.0);
  rect({left, at.y - 0.9 * size, at.x - before + width + kMargin - left, 1.2 * size}, {Paint::plate});
}

void Svg::picture(const Box& box, std::string_view mime, std::string_view bytes, std::string_view words) {
  body_ += "<image" + length("x", box.x) + length("y", box.y) + length("width", box.width) +
           length("height", box.height) + attribute("preserveAspectRatio", "xMidYMid meet") +
           attribute("href", "data:" + std::string(mime) + ";base64," + base64(bytes)) + "><title>" + xml_text(words) +
           "</title></image>";
}

void Svg::target(const Box& box) {
  body_ += "<rect" + length("x", box.x) + length("y", box.y) + length("width", box.width) +
           length("height", box.height) + attribute("fill-opacity", "0") + "/>\n";
}

void Svg::begin_mark(std::string_view title, std::string_view data_set) {
  body_ += "<g" + attribute("class", "f-item") + attribute("role", "img");
  if (!data_set.empty()) body_ += attribute("data-set", xml_text(data_set));
  body_ += "><title>" + xml_text(title) + "</title>\n";
}

void Svg::end_mark() { body_ += "</g>\n"; }

std::string Svg::finish(double width_mm, double height_mm, std::string_view title) const {
  const auto in_mm = [](double mm) { return format_fixed(mm, 2) + "mm"; };
  return "<svg" + attribute("xmlns", "http://www.w3.org/2000/svg") + attribute("class", "sherd-figure") +
         attribute("width", in_mm(width_mm)) + attribute("height", in_mm(height_mm)) +
         attribute("viewBox", "0 0 " + units(width_mm) + " " + units(height_mm)) +
         attribute("role", "graphics-document") + attribute("aria-label", xml_text(title)) +
         attribute("font-family", "Inter, sans-serif") + ">\n" + body_ + "</svg>\n";
}

}  // namespace sherd::figure
