#include "figure/palette.h"

#include <array>

namespace sherd::figure {
namespace {

struct Rule {
  std::string_view name;
  bool outline;
  std::array<std::string_view, 3> colours;  // print, light, dark
};

constexpr bool kFill = false, kOutline = true;
constexpr std::string_view kWhite = "#FFFFFF", kBlack = "#000000";

// In the order of Paint. In print, text and lines are black, so that they print in one plate without a screen.
constexpr std::array<Rule, static_cast<std::size_t>(Paint::count_)> kRules = {{
    {"", kFill, {"none", "none", "none"}},
    {"f-ink", kFill, {kBlack, "#24201C", "#EDE6DA"}},
    {"f-quiet", kFill, {"#4A443D", "#6B6258", "#A79C8D"}},
    {"f-plate", kFill, {kWhite, "#FFFDF8", "#262320"}},
    {"f-mark", kFill, {"#2A4B7C", "#2A4B7C", "#8FB0E0"}},
    {"f-other", kFill, {kWhite, "#FFFDF8", "#262320"}},
    {"f-hollow", kFill, {kWhite, "#FFFDF8", "#262320"}},
    {"f-terminus", kFill, {"#9C3B22", "#9C3B22", "#E58A6C"}},
    {"f-c1", kFill, {"#2A4B7C", "#2A4B7C", "#8FB0E0"}},  // cobalt
    {"f-c2", kFill, {"#9C3B22", "#9C3B22", "#E58A6C"}},  // iron red
    {"f-c3", kFill, {"#3F6F5B", "#3F6F5B", "#86BBA4"}},  // copper green
    {"f-c4", kFill, {"#B07F26", "#B07F26", "#E0C06A"}},  // ochre
    {"f-c5", kFill, {"#6A4A63", "#6A4A63", "#C3A2BE"}},  // manganese
    {"f-c6", kFill, {"#7A7F82", "#7A7F82", "#8C9194"}},  // reduced grey
    {"f-c7", kFill, {"#2F7F8C", "#2F7F8C", "#3E9DB0"}},  // teal
    {"f-c8", kFill, {"#6E4B2E", "#6E4B2E", "#A8714A"}},  // umber
    {"f-on1", kFill, {kWhite, kWhite, kBlack}},
    {"f-on2", kFill, {kWhite, kWhite, kBlack}},
    {"f-on3", kFill, {kWhite, kWhite, kBlack}},
    {"f-on4", kFill, {kBlack, kBlack, kBlack}},
    {"f-on5", kFill, {kWhite, kWhite, kBlack}},
    {"f-on6", kFill, {kBlack, kBlack, kBlack}},
    {"f-on7", kFill, {kWhite, kWhite, kBlack}},
    {"f-on8", kFill, {kWhite, kWhite, kBlack}},
    {"f-rule", kOutline, {"#D0D0D0", "#DCD3C2", "#3C3732"}},
    {"f-axis", kOutline, {"#4A443D", "#6B6258", "#A79C8D"}},
    {"f-halo", kOutline, {kWhite, "#FFFDF8", "#262320"}},
    {"f-ink-line", kOutline, {kBlack, "#24201C", "#EDE6DA"}},
    {"f-mark-line", kOutline, {"#2A4B7C", "#2A4B7C", "#8FB0E0"}},
    {"f-other-line", kOutline, {"#4A443D", "#6B6258", "#A79C8D"}},
    {"f-terminus-line", kOutline, {"#9C3B22", "#9C3B22", "#E58A6C"}},
    {"f-l1", kOutline, {"#2A4B7C", "#2A4B7C", "#8FB0E0"}},
    {"f-l2", kOutline, {"#9C3B22", "#9C3B22", "#E58A6C"}},
    {"f-l3", kOutline, {"#3F6F5B", "#3F6F5B", "#86BBA4"}},
    {"f-l4", kOutline, {"#B07F26", "#B07F26", "#E0C06A"}},
    {"f-l5", kOutline, {"#6A4A63", "#6A4A63", "#C3A2BE"}},
    {"f-l6", kOutline, {"#7A7F82", "#7A7F82", "#8C9194"}},
    {"f-l7", kOutline, {"#2F7F8C", "#2F7F8C", "#3E9DB0"}},
    {"f-l8", kOutline, {"#6E4B2E", "#6E4B2E", "#A8714A"}},
}};

const Rule& rule_of(Paint paint) { return kRules[static_cast<std::size_t>(paint)]; }

Paint shifted(Paint first, std::size_t i) {
  return static_cast<Paint>(static_cast<std::size_t>(first) + i % kCategories);
}

}  // namespace

Paint category(std::size_t i) { return shifted(Paint::c1, i); }
Paint on_category(std::size_t i) { return shifted(Paint::on1, i); }
Paint category_line(std::size_t i) { return shifted(Paint::l1, i); }

std::string_view class_of(Paint paint) { return rule_of(paint).name; }
bool is_outline(Paint paint) { return rule_of(paint).outline; }
std::string_view colour(Paint paint, Scheme scheme) { return rule_of(paint).colours[static_cast<std::size_t>(scheme)]; }

std::string_view ground(Scheme scheme) {
  return std::array<std::string_view, 3>{kWhite, "#F7F3EA", "#1C1A18"}[static_cast<std::size_t>(scheme)];
}
std::string_view paper(Scheme scheme) { return colour(Paint::plate, scheme); }

std::string stylesheet(Scheme scheme) {
  std::string out;
  for (const Rule& rule : kRules) {
    if (rule.name.empty()) continue;
    out += ".sherd-figure .";
    out += rule.name;
    out += rule.outline ? " { stroke: " : " { fill: ";
    out += rule.colours[static_cast<std::size_t>(scheme)];
    out += "; }\n";
  }
  return out;
}

std::string page_stylesheet() {
  return "/* The colours of figures, made from src/figure/palette.cpp by tools/approve_figures; do not edit. In print "
         "a\n"
         "   figure keeps its presentation attributes. */\n"
         "svg.sherd-figure { max-width: 100%; height: auto; }\n"
         "@media screen and (prefers-color-scheme: light) {\n" +
         stylesheet(Scheme::light) + "}\n@media screen and (prefers-color-scheme: dark) {\n" +
         stylesheet(Scheme::dark) + "}\n";
}

}  // namespace sherd::figure
