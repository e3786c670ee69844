#include "figure/testing.h"

#include <algorithm>
#include <regex>

#include "base/text.h"

namespace sherd::figure {
namespace {

constexpr double kUnit = 0.1;       // mm
constexpr double kTolerance = 0.3;  // mm: half a line may lie beyond

std::vector<double> numbers_of(const std::string& path) {
  std::vector<double> out;
  static const std::regex kNumber("-?[0-9.]+");
  for (std::sregex_iterator it(path.begin(), path.end(), kNumber), end; it != end; ++it) {
    out.push_back(std::strtod(it->str().c_str(), nullptr));
  }
  return out;
}

std::vector<Point> corners_of(const Element& e) {
  if (e.name == "rect") {
    const double x = e.number("x"), y = e.number("y");
    return {{x, y}, {x + e.number("width"), y + e.number("height")}};
  }
  if (e.name == "circle") {
    const double x = e.number("cx"), y = e.number("cy"), r = e.number("r");
    return {{x - r, y - r}, {x + r, y + r}};
  }
  if (e.name == "line") return {{e.number("x1"), e.number("y1")}, {e.number("x2"), e.number("y2")}};
  std::vector<Point> corners;
  if (e.name == "path") {
    const std::vector<double> numbers = numbers_of(e.value("d"));
    for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) corners.push_back({numbers[i], numbers[i + 1]});
  }
  return corners;
}

bool overlap(const Box& a, const Box& b) {
  constexpr double kTouch = 0.05;
  return a.x + kTouch < b.right() && b.x + kTouch < a.right() && a.y + kTouch < b.bottom() && b.y + kTouch < a.bottom();
}

void expect_plain(const std::string& svg) {
  for (const char* never :
       {"style", "var(", "url(", " id=", "\"-0\"", "\"nan", "\"inf", "\"-nan", "\"-inf", "e+", "<script"}) {
    // Words may hold what marks may not: look at the tags alone.
    std::string tags;
    for (const Element& e : elements_of(svg)) {
      tags += " <" + e.name;
      for (const auto& [name, value] : e.attributes) {
        if (name != "aria-label" && name != "data-set") tags += " " + name + "=\"" + value + "\"";
      }
    }
    EXPECT_EQ(tags.find(never), std::string::npos) << never;
  }
}

void expect_sizes(const Element& e) {
  if (e.name == "text") {
    const double points = e.number("font-size") * kUnit / kMmPerPoint;
    EXPECT_GE(points, 7 - 0.01);
    EXPECT_LE(points, 9 + 0.01);
  }
  if (e.attributes.contains("stroke")) {
    EXPECT_GE(e.number("stroke-width") * kUnit, 0.25);
  }
}

void expect_apart(const std::vector<std::pair<Box, std::string>>& texts) {
  for (std::size_t i = 0; i < texts.size(); ++i) {
    for (std::size_t j = i + 1; j < texts.size(); ++j) {
      EXPECT_FALSE(overlap(texts[i].first, texts[j].first)) << texts[i].second << " | " << texts[j].second;
    }
  }
}

}  // namespace

std::string unescaped(std::string text) {
  for (const auto& [from, to] :
       {std::pair{"&lt;", "<"}, std::pair{"&gt;", ">"}, std::pair{"&quot;", "\""}, std::pair{"&amp;", "&"}}) {
    text = replace_all(std::move(text), from, to);
  }
  return text;
}

std::vector<Element> elements_of(const std::string& svg) {
  std::vector<Element> out;
  for (std::size_t at = svg.find('<'); at != std::string::npos; at = svg.find('<', at + 1)) {
    const std::size_t end = svg.find('>', at), next = std::min(svg.find('<', end), svg.size());
    Element e;
    std::size_t p = svg.find_first_of(" />", at + 2);
    e.name = svg.substr(at + 1, p - at - 1);
    while (p < end) {
      const std::size_t name = svg.find_first_not_of(' ', p), equals = svg.find('=', name);
      if (equals == std::string::npos || equals > end) break;
      const std::size_t quote = svg.find('"', equals + 2);
      e.attributes[svg.substr(name, equals - name)] = svg.substr(equals + 2, quote - equals - 2);
      p = quote + 1;
    }
    e.text = unescaped(svg.substr(end + 1, next - end - 1));
    out.push_back(std::move(e));
  }
  return out;
}

Box box_of_text(const Element& text, const std::string& words) {
  const double points = text.number("font-size") * kUnit / kMmPerPoint, size = text.number("font-size") * kUnit;
  const Face face = text.value("font-weight") == "600" ? Face::sans_strong : Face::sans;
  const double width = text_width_mm(words, face, points);
  const std::string anchor = text.value("text-anchor");
  const double before = anchor == "end" ? width : anchor == "middle" ? width / 2 : 0;
  if (text.value("transform").starts_with("rotate(-90"))
    return {text.number("x") * kUnit - 0.75 * size, text.number("y") * kUnit - width + before, 0.97 * size, width};
  return {text.number("x") * kUnit - before, text.number("y") * kUnit - 0.75 * size, width, 0.97 * size};
}

void expect_sound(const std::string& svg) {
  expect_plain(svg);
  const std::vector<Element> elements = elements_of(svg);
  ASSERT_EQ(elements.front().name, "svg");
  EXPECT_FALSE(elements.front().value("aria-label").empty());
  const std::vector<double> page = numbers_of(elements.front().value("viewBox"));
  ASSERT_EQ(page.size(), 4u);
  const double width = page[2] * kUnit, height = page[3] * kUnit;
  EXPECT_NEAR(elements.front().number("width"), width, 0.01);
  EXPECT_NEAR(elements.front().number("height"), height, 0.01);

  std::vector<std::pair<Box, std::string>> texts;
  for (std::size_t i = 0; i < elements.size(); ++i) {
    const Element& e = elements[i];
    expect_sizes(e);
    for (const Point& p : corners_of(e)) {
      EXPECT_TRUE(p.x * kUnit >= -kTolerance && p.x * kUnit <= width + kTolerance && p.y * kUnit >= -kTolerance &&
                  p.y * kUnit <= height + kTolerance)
          << e.name << " at " << p.x << ", " << p.y << " on a page of " << page[2] << " x " << page[3];
    }
    if (e.name == "rect") {
      EXPECT_TRUE(e.number("width") >= 0 && e.number("height") >= 0);
    }
    if (e.name == "g") {
      EXPECT_TRUE(elements[i + 1].name == "title" && !elements[i + 1].text.empty());
    }
    if (e.name != "text") continue;
    const bool has_title = elements[i + 1].name == "title";
    const std::string words = has_title ? elements[i + 2].text : e.text;
    texts.emplace_back(box_of_text(e, words), words);
    EXPECT_GE(texts.back().first.x, -kTolerance) << words;
    EXPECT_LE(texts.back().first.right(), width + kTolerance) << words;
    EXPECT_LE(texts.back().first.bottom(), height + kTolerance) << words;
  }
  expect_apart(texts);
}

}  // namespace sherd::figure
