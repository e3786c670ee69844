#include "figure/composition.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/rows.h"
#include "figure/scale.h"
#include "figure/shapes.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kLargest = 1e100;  // beyond, sums are no longer numbers
constexpr double kBarMm = 5.4;
constexpr double kSeamMm = 0.3;        // of the page's colour between neighbours
constexpr double kTextMarginMm = 0.8;  // on each side of a label inside its area
constexpr std::string_view kOther = "other";

double amount_of(const CompositionGroup& group, std::size_t category) {
  if (category >= group.amounts.size()) return 0;
  const double amount = group.amounts[category];
  return amount > 0 && amount <= kLargest ? amount : 0;
}

// Which categories are shown and which are taken together.
struct Choice {
  std::vector<std::size_t> shown;  // in the order given
  std::vector<std::size_t> other;
};

Choice choose(const CompositionData& data) {
  std::vector<double> sums(data.categories.size(), 0);
  for (const CompositionGroup& group : data.groups) {
    for (std::size_t c = 0; c < sums.size(); ++c) sums[c] += amount_of(group, c);
  }
  std::vector<std::size_t> order;
  for (std::size_t c = 0; c < sums.size(); ++c) {
    if (sums[c] > 0) order.push_back(c);  // a category without any amount takes no colour
  }
  std::ranges::stable_sort(order, std::greater{}, [&](std::size_t c) { return sums[c]; });
  Choice choice;
  const auto cut = order.begin() + static_cast<std::ptrdiff_t>(std::min(order.size(), kCategories));
  choice.shown.assign(order.begin(), cut);
  choice.other.assign(cut, order.end());
  std::ranges::sort(choice.shown);
  std::ranges::sort(choice.other);
  return choice;
}

// One area of a bar: a shown category or "other".
struct Part {
  std::string name;
  std::size_t colour = 0;  // kCategories is "other"
  double amount = 0;
  std::string data_set;
};

std::vector<Part> parts_of(const CompositionData& data, const Choice& choice, const CompositionGroup& group) {
  std::vector<Part> parts;
  for (std::size_t i = 0; i < choice.shown.size(); ++i) {
    const std::size_t c = choice.shown[i];
    parts.push_back({data.categories[c], i, amount_of(group, c), c < group.data_sets.size() ? group.data_sets[c] : ""});
  }
  double rest = 0;
  for (const std::size_t c : choice.other) rest += amount_of(group, c);
  if (!choice.other.empty()) parts.push_back({std::string(kOther), kCategories, rest, ""});
  return parts;
}

double total_of(const std::vector<Part>& parts) {
  return std::accumulate(parts.begin(), parts.end(), 0.0,
                         [](double sum, const Part& part) { return sum + part.amount; });
}

void draw_area(Svg& svg, const Box& box, std::size_t colour) {
  colour < kCategories ? draw_category(svg, box, colour) : draw_other(svg, box);
}

double inner_width(const Part& part, double total, double bar_mm) {
  return part.amount / total * bar_mm - kSeamMm - 2 * kTextMarginMm;
}

bool name_fits(const Part& part, double total, double bar_mm) {
  return text_width_mm(part.name, Face::sans, kNotePoints) <= inner_width(part, total, bar_mm);
}

// True where the first bar with pottery has room for the name of every category, so that no legend is needed.
bool first_bar_names_all(const CompositionData& data, const Choice& choice, std::size_t first, double bar_mm) {
  for (std::size_t g = first; g < data.groups.size(); ++g) {
    const std::vector<Part> parts = parts_of(data, choice, data.groups[g]);
    const double total = total_of(parts);
    if (total > 0) {
      return std::ranges::all_of(parts, [&](const Part& part) { return name_fits(part, total, bar_mm); });
    }
  }
  return true;
}

std::string other_note(const CompositionData& data, const Choice& choice) {
  if (choice.other.empty()) return {};
  constexpr std::size_t kMostNames = 12;
  std::vector<std::string> names;
  for (const std::size_t c : choice.other) names.push_back(data.categories[c]);
  const std::string word = data.categories_word.empty() ? "categories" : data.categories_word;
  std::string note =
      names.size() == 1 ? "Other, of the smallest sum: "
                        : "Other: " + grouped(static_cast<long long>(names.size())) + " " + word + " of smaller sums: ";
  const std::size_t more = names.size() > kMostNames ? names.size() - kMostNames : 0;
  names.resize(names.size() - more);
  note += join(names, ", ");
  return note + (more > 0 ? " and " + grouped(static_cast<long long>(more)) + " more." : ".");
}

RowsRequest request_of(const CompositionData& data, const Page& page, const Choice& choice) {
  RowsRequest request;
  request.about = data.about;
  request.page = page;
  request.rows_word = data.rows_word;
  request.n_word = data.n_word;
  request.axis_title = axis_title(data.measure, "%");
  request.mark_mm = kBarMm;
  request.n_below = true;
  for (const CompositionGroup& group : data.groups) {
    request.rows.push_back({"", group.name, n_text(group.n, data.n_word)});
  }
  request.notes.push_back(other_note(data, choice));
  const RowFrame bare = place_rows(request);
  if (first_bar_names_all(data, choice, bare.rows.front().index, bare.width - bare.plot_left - 2)) return request;
  for (std::size_t i = 0; i < choice.shown.size(); ++i) {
    request.legend.push_back(
        {data.categories[choice.shown[i]], [i](Svg& svg, const Box& box) { draw_category(svg, box, i); }});
  }
  if (!choice.other.empty()) {
    request.legend.push_back({std::string(kOther), [](Svg& svg, const Box& box) { draw_other(svg, box); }});
  }
  return request;
}

// Words on their area, on a plate of its colour where a texture would run through them.
void draw_words_on(Svg& svg, const Box& box, std::size_t colour, const std::string& words) {
  const double width = text_width_mm(words, Face::sans, kNotePoints);
  const Point at = {box.x + box.width / 2, box.y + box.height / 2 + 0.9};
  if (colour >= kCategories / 2 && colour < kCategories) {
    svg.rect({at.x - width / 2 - 0.5, at.y - 2.5, width + 1, 3.3}, {category(colour)});
  }
  const Paint paint = colour < kCategories ? on_category(colour) : Paint::ink;
  svg.text(at, words, {kNotePoints, Face::sans, paint, Anchor::middle});
}

void draw_bar(Svg& svg, const CompositionData& data, const CompositionGroup& group, const std::vector<Part>& parts,
              const RowFrame& frame, const PlacedRow& row, double bar_mm, bool with_names) {
  const double total = total_of(parts);
  double x = frame.plot_left;
  for (const Part& part : parts) {
    const double width = part.amount / total * bar_mm;
    const Box box = {x, row.middle() - kBarMm / 2, std::max(width - kSeamMm, std::min(width, 0.1)), kBarMm};
    x += width;
    if (!(part.amount > 0)) continue;
    const double percent = part.amount / total * 100;
    const std::string share = percent < 1 ? "under 1" : number_text(percent, 0);
    svg.begin_mark(group.name + ", " + part.name + ": " + share + " % of " + number_text(total, total < 100 ? 1 : 0) +
                       (data.measure.empty() ? "" : " (" + lower(data.measure) + ")"),
                   part.data_set);
    draw_area(svg, box, part.colour);
    const double room = inner_width(part, total, bar_mm);
    const std::string words = with_names && name_fits(part, total, bar_mm) ? part.name : number_text(percent, 0);
    if (text_width_mm(words, Face::sans, kNotePoints) <= room) draw_words_on(svg, box, part.colour, words);
    svg.end_mark();
  }
}

void draw_share_axis(Svg& svg, const RowFrame& frame, double bar_mm) {
  const LinearScale scale(0, 100, frame.plot_left, frame.plot_left + bar_mm);
  const std::vector<AxisTick> axis = value_axis(scale, frame.plot_left - 4, frame.width);
  draw_rules(svg, axis, frame.plot_top, frame.plot_bottom);
  draw_labels_below(svg, axis, frame.plot_bottom);
}

}  // namespace

std::string composition(const CompositionData& data, const Page& page) {
  if (data.groups.empty()) return empty_figure(data.about, page);
  const Choice choice = choose(data);
  if (choice.shown.empty()) return empty_figure(data.about, page);
  const RowsRequest request = request_of(data, page, choice);
  const RowFrame frame = place_rows(request);
  const double bar_mm = frame.width - frame.plot_left - 2;
  Svg svg;
  draw_share_axis(svg, frame, bar_mm);
  draw_frame(svg, request, frame);
  bool first = true;
  for (const PlacedRow& row : frame.rows) {
    const CompositionGroup& group = data.groups[row.index];
    const std::vector<Part> parts = parts_of(data, choice, group);
    if (total_of(parts) > 0) {
      draw_bar(svg, data, group, parts, frame, row, bar_mm, first && request.legend.empty());
      first = false;
    } else {
      svg.text({frame.plot_left + 1, row.middle() + 0.9}, "No pottery", {kNotePoints, Face::sans, Paint::quiet});
    }
  }
  return svg.finish(frame.width, frame.height, data.about.title);
}

std::size_t next_row_of_composition(const CompositionData& data, const Page& page) {
  if (data.groups.empty()) return 0;
  const Choice choice = choose(data);
  return choice.shown.empty() ? data.groups.size() : place_rows(request_of(data, page, choice)).next;
}

}  // namespace sherd::figure
