#include "figure/rows.h"

#include <algorithm>

#include "base/text.h"
#include "figure/axis.h"

namespace sherd::figure {
namespace {

constexpr double kNameShare = 0.34;    // of the page's width that names may take
constexpr double kNumberShare = 0.25;  // that n may take
constexpr double kColumnGapMm = 2;     // between names, n and the plot
constexpr double kHeadingMm = 4.6;
constexpr double kTitleGapMm = 1.2;
constexpr std::size_t kNameLines = 2;

std::string n_heading(const RowsRequest& request, double page_mm) {
  const std::string words = request.n_word.empty() ? "n" : "n (" + request.n_word + ")";
  return fitted(words, Face::sans, kNotePoints, page_mm * kNumberShare);
}

double widest(const std::vector<RowText>& rows, std::string RowText::* part, double points) {
  double width = 0;
  for (const RowText& row : rows) width = std::max(width, text_width_mm(row.*part, Face::sans, points));
  return width;
}

void measure_columns(const RowsRequest& request, RowFrame& frame) {
  frame.name_width = std::min(widest(request.rows, &RowText::name, kNamePoints), frame.width * kNameShare);
  double n_width = std::min(widest(request.rows, &RowText::n, kNotePoints), frame.width * kNumberShare);
  if (request.n_below) {
    frame.name_width = std::max(frame.name_width, std::min(n_width, frame.width * kNameShare));
    frame.n_right = frame.name_width;
  } else {
    if (n_width > 0) {  // The heading may reach back over the names, not beyond them.
      const double heading = text_width_mm(n_heading(request, frame.width), Face::sans, kNotePoints);
      n_width = std::max(n_width, heading - frame.name_width - kColumnGapMm);
    }
    frame.n_right = frame.name_width + (n_width > 0 ? kColumnGapMm + n_width : 0);
  }
  frame.plot_left = frame.n_right + kColumnGapMm;
}

PlacedRow measured(const RowsRequest& request, const RowFrame& frame, std::size_t i, bool first) {
  PlacedRow row;
  row.index = i;
  const RowText& text = request.rows[i];
  row.name = wrapped(text.name, Face::sans, kNamePoints, frame.name_width + 0.01, kNameLines);
  row.shortened = !row.name.empty() && row.name.back().ends_with("\u2026") && !text.name.ends_with("\u2026");
  double lines = static_cast<double>(row.name.size()) * line_mm(kNamePoints);
  if (request.n_below && !text.n.empty()) lines += line_mm(kNotePoints);
  row.height = std::max(request.mark_mm, lines) + request.padding_mm;
  const bool changes = first || request.rows[i - 1].group != text.group;
  if (changes) row.heading = fitted(text.group, Face::sans_strong, kNamePoints, frame.width);
  return row;
}

// Places rows until `room` is used up; at least one.
void fill(const RowsRequest& request, RowFrame& frame, std::size_t first, double room) {
  frame.rows.clear();
  double y = frame.plot_top;
  std::size_t i = first;
  for (; i < request.rows.size(); ++i) {
    PlacedRow row = measured(request, frame, i, i == first);
    const double needed = row.height + (row.heading.empty() ? 0 : kHeadingMm);
    if (i > first && y + needed > frame.plot_top + room) break;
    row.top = y + needed - row.height;
    y += needed;
    frame.rows.push_back(std::move(row));
  }
  frame.plot_bottom = y;
  frame.next = i;
}

std::string cut_note(const RowsRequest& request, std::size_t first, std::size_t next) {
  const std::string word = request.rows_word.empty() ? "rows" : request.rows_word;
  const auto number = [](std::size_t n) { return grouped(static_cast<long long>(n)); };
  const std::size_t missing = request.rows.size() - (next - first);
  const std::string others = missing == 1 ? "the other one is" : "the other " + number(missing) + " are";
  const std::string shown = next - first == 1 ? number(next) : number(first + 1) + " to " + number(next);
  return "Shown of the " + word + ": " + shown + " of " + number(request.rows.size()) + "; " + others +
         " not in this figure.";
}

std::vector<std::string> notes_of(const RowsRequest& request, double width, const std::string& cut) {
  std::vector<std::string> sentences = request.notes;
  sentences.insert(sentences.end(), request.about.left_out.begin(), request.about.left_out.end());
  sentences.push_back(cut);
  return note_lines(sentences, width);
}

void draw_row(Svg& svg, const RowsRequest& request, const RowFrame& frame, const PlacedRow& row) {
  const RowText& text = request.rows[row.index];
  if (!row.heading.empty()) {
    svg.text({0, row.top - 1.2}, row.heading, {kNamePoints, Face::sans_strong, Paint::ink, Anchor::start, true});
  }
  const bool n_line = request.n_below && !text.n.empty();
  const double height =
      static_cast<double>(row.name.size()) * line_mm(kNamePoints) + (n_line ? line_mm(kNotePoints) : 0);
  double y = row.middle() - height / 2;
  for (const std::string& line : row.name) {
    y += line_mm(kNamePoints);
    const bool last = &line == &row.name.back();
    svg.text({0, y - 0.9}, line, {kNamePoints}, row.shortened && last ? text.name : "");
  }
  if (n_line) {
    const std::string n = fitted(text.n, Face::sans, kNotePoints, frame.name_width + 0.01);
    svg.text({0, y + line_mm(kNotePoints) - 0.9}, n, {kNotePoints, Face::sans, Paint::quiet});
  } else if (!text.n.empty()) {
    const std::string n = fitted(text.n, Face::sans, kNotePoints, frame.width * kNumberShare);
    svg.text({frame.n_right, row.middle() + 0.9}, n, {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  }
}

}  // namespace

RowFrame place_rows(const RowsRequest& request) {
  RowFrame frame;
  const Page page = usable(request.page);
  frame.width = page.width_mm;
  measure_columns(request, frame);
  frame.legend = place_legend(request.legend, frame.width);
  frame.title_top = frame.legend.height + (request.legend.empty() ? 0 : 1);
  const double plot_width = frame.width - frame.plot_left;
  frame.title = wrapped(request.axis_title, Face::sans_strong, kNotePoints, plot_width, 2);
  const double title_mm = static_cast<double>(frame.title.size()) * line_mm(kNotePoints);
  const double note_mm = request.axis_note.empty() ? 0 : line_mm(kNotePoints);
  frame.plot_top = frame.title_top + title_mm + note_mm + kTitleGapMm + (request.ticks_above ? kAxisMm : 0);

  const std::size_t first = request.rows.empty() ? 0 : std::min(page.first_row, request.rows.size() - 1);
  const double around = frame.plot_top + kAxisMm;
  frame.notes = notes_of(request, frame.width, first > 0 ? cut_note(request, first, request.rows.size()) : "");
  fill(request, frame, first, page.max_height_mm - around - notes_mm(frame.notes));
  if (frame.next < request.rows.size()) {
    const std::string longest = cut_note(request, first, frame.next);
    fill(request, frame, first, page.max_height_mm - around - notes_mm(notes_of(request, frame.width, longest)));
    frame.notes = notes_of(request, frame.width, cut_note(request, first, frame.next));
  }
  frame.height = frame.plot_bottom + kAxisMm + notes_mm(frame.notes);
  return frame;
}

void draw_frame(Svg& svg, const RowsRequest& request, const RowFrame& frame) {
  draw_legend(svg, frame.legend, 0);
  double y = frame.title_top;
  for (const std::string& line : frame.title) {
    y += line_mm(kNotePoints);
    svg.text({frame.plot_left, y - 0.7}, line, {kNotePoints, Face::sans_strong});
  }
  const bool has_n = std::ranges::any_of(request.rows, [](const RowText& row) { return !row.n.empty(); });
  if (has_n && !request.n_below) {
    svg.text({frame.n_right, y - 0.7}, n_heading(request, frame.width),
             {kNotePoints, Face::sans, Paint::quiet, Anchor::end});
  }
  for (const PlacedRow& row : frame.rows) draw_row(svg, request, frame, row);
  draw_notes(svg, frame.notes, frame.plot_bottom + kAxisMm);
}

}  // namespace sherd::figure
