#include "figure/fonts.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "base/text.h"
#include "figure/utf8.h"
#include "sherd_figure_data.h"

namespace sherd::figure {
namespace {

constexpr std::size_t kFaces = 4;
constexpr float kLacking = -1;
constexpr double kEm = 1000;
constexpr std::string_view kEllipsis = "\u2026";

struct Widths {
  char32_t code = 0;
  std::array<float, kFaces> per_mille{};
};

// A row of widths.csv; the table is our own and built in, so that a row that cannot be read counts as lacking.
Widths parse_row(std::string_view line) {
  const std::vector<std::string_view> cells = split(line, ',');
  Widths row;
  row.per_mille.fill(kLacking);
  std::uint32_t code = 0;
  std::from_chars(cells[0].data(), cells[0].data() + cells[0].size(), code, 16);
  row.code = code;
  for (std::size_t face = 0; face < kFaces && face + 1 < cells.size(); ++face) {
    const std::string_view cell = cells[face + 1];
    std::from_chars(cell.data(), cell.data() + cell.size(), row.per_mille[face]);
  }
  return row;
}

std::vector<Widths> parse_table(std::string_view csv) {
  std::vector<Widths> table;
  for (const std::string_view line : split(csv, '\n')) {
    if (line.empty() || line.starts_with("codepoint")) continue;
    table.push_back(parse_row(line));
  }
  std::ranges::sort(table, {}, &Widths::code);
  return table;
}

double per_mille(char32_t code, Face face) {
  static const std::vector<Widths> kTable = parse_table(font_widths_csv);
  const auto row = std::ranges::lower_bound(kTable, code, {}, &Widths::code);
  if (row == kTable.end() || row->code != code) return kEm;
  const float width = row->per_mille[static_cast<std::size_t>(face)];
  return width < 0 ? kEm : static_cast<double>(width);
}

// How many bytes of the text go into `room` thousandths of an em.
std::size_t bytes_within(std::string_view text, Face face, double room) {
  std::size_t at = 0;
  while (at < text.size()) {
    const Character c = character_at(text, at);
    room -= per_mille(c.code, face);
    if (room < 0) return at;
    at += c.bytes;
  }
  return at;
}

double to_room(double width_mm, double points) { return width_mm / (points * kMmPerPoint) * kEm + 1e-6; }

// The next piece that may end a line: up to and with a space, or after a hyphen or slash.
std::string_view next_piece(std::string_view text) {
  const std::size_t end = text.find_first_of(" -/");
  return end == std::string_view::npos ? text : text.substr(0, end + 1);
}

bool fits(std::string_view text, Face face, double points, double width_mm) {
  return bytes_within(text, face, to_room(width_mm, points)) == text.size();
}

// The longest beginning of `text` that makes a line, at least one character.
std::size_t line_length(std::string_view text, Face face, double points, double width_mm) {
  std::size_t length = 0;
  while (length < text.size()) {
    const std::string_view piece = next_piece(text.substr(length));
    const std::string_view line = text.substr(0, length + piece.size());
    if (!fits(trim(line), face, points, width_mm)) break;
    length += piece.size();
  }
  if (length > 0) return length;
  const std::size_t within = bytes_within(text, face, to_room(width_mm, points));
  return std::max(within, character_at(text, 0).bytes);
}

}  // namespace

std::span<const FontFile> font_files() {
  static const std::array<FontFile, kFaces> kFiles = {{
      {"inter-regular.otf", "Inter", 400, false, font_inter_regular},
      {"inter-semibold.otf", "Inter", 600, false, font_inter_semibold},
      {"eb-garamond-regular.otf", "EB Garamond", 400, false, font_eb_garamond_regular},
      {"eb-garamond-italic.otf", "EB Garamond", 400, true, font_eb_garamond_italic},
  }};
  return kFiles;
}

double text_width_mm(std::string_view text, Face face, double points) {
  double sum = 0;
  for (std::size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    sum += per_mille(c.code, face);
    at += c.bytes;
  }
  return sum / kEm * points * kMmPerPoint;
}

std::string fitted(std::string_view text, Face face, double points, double width_mm) {
  if (fits(text, face, points, width_mm)) return std::string(text);
  const double room = to_room(width_mm, points) - per_mille(U'\u2026', face);
  const std::string_view start = room < 0 ? "" : trim(text.substr(0, bytes_within(text, face, room)));
  return start.empty() ? "" : std::string(start) + std::string(kEllipsis);
}

std::vector<std::string> wrapped(std::string_view text, Face face, double points, double width_mm,
                                 std::size_t max_lines) {
  std::vector<std::string> lines;
  for (std::string_view rest = trim(text); !rest.empty() && lines.size() < max_lines;) {
    const bool last = lines.size() + 1 == max_lines;
    const std::size_t length = last ? rest.size() : line_length(rest, face, points, width_mm);
    const std::string_view line = trim(rest.substr(0, length));
    lines.push_back(last ? fitted(line, face, points, width_mm) : std::string(line));
    rest = trim(rest.substr(length));
  }
  return lines;
}

}  // namespace sherd::figure
