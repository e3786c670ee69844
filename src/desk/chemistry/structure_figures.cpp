#include "desk/chemistry/structure_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "desk/chemistry/group_marks.h"
#include "desk/frame/cluster_pictures.h"
#include "figure/bars.h"
#include "figure/heat_table.h"
#include "figure/words.h"
#include "figure/xy.h"

/// Figures of components, clusters, discriminant functions and variation.
namespace sherd::desk {

namespace {

constexpr std::size_t kMostNamed = 60;  // more points than that have no names beside them
constexpr std::size_t kGrey = 5;

std::string axis_title(const char* what, std::size_t k, const std::vector<double>& shares, const char* of) {
  if (k >= shares.size()) return "";
  return fmt::format("{} {} ({:.1f} % of the {})", what, k + 1, 100 * shares[k], of);
}

/// Variables as arrows from the middle, as long as the points are far.
void add_loadings(const chemistry::Components& found, figure::XyData& data) {
  double farthest = 0;
  double longest = 0;
  for (const chemistry::Score& score : found.scores)
    farthest = std::max(farthest, std::hypot(score.values[0], score.values[1]));
  for (const auto& loading : found.loadings) longest = std::max(longest, std::hypot(loading[0], loading[1]));
  if (!(longest > 0)) return;
  const double by = 0.8 * farthest / longest;
  std::vector<figure::XyPoint> tips;
  for (std::size_t j = 0; j < found.variables.size(); ++j) {
    const double x = by * found.loadings[j][0];
    const double y = by * found.loadings[j][1];
    const std::string words = fmt::format("loadings {:.3f} and {:.3f}", found.loadings[j][0], found.loadings[j][1]);
    figure::XyCurve arrow{.label = "", .points = {{0, 0}, {x, y}}, .colour = kGrey};
    arrow.words = printed_part(found.variables[j]) + ": " + words;
    data.curves.push_back(std::move(arrow));
    tips.push_back(
        {.label = printed_part(found.variables[j]), .x = x, .y = y, .colour = kGrey, .radius_mm = 0.5, .words = words});
  }
  data.points.insert(data.points.begin(), tips.begin(), tips.end());
}

void add_ellipses(const chemistry::Components& found, const GroupMarks& marks, figure::XyData& data) {
  for (const chemistry::GroupEllipse& one : found.ellipses) {
    figure::XyPoint centre{.label = one.group, .x = one.centre[0], .y = one.centre[1]};
    centre.colour = marks.colour(one.group);
    centre.symbol = figure::Symbol::cross;
    centre.radius_mm = 1.6;
    centre.ring = figure::Ring{one.centre[0], one.centre[1], one.major, one.minor, one.angle_degrees};
    centre.words = fmt::format("mean of {} samples", one.n);
    data.points.push_back(std::move(centre));
  }
}

figure::XyPoint mark_of(const std::string& id, const std::string& record, const std::string& group, double x, double y,
                        const GroupMarks& marks, bool named) {
  figure::XyPoint out{.label = named ? id : "", .x = x, .y = y};
  out.colour = marks.colour(group);
  out.symbol = marks.symbol(group);
  out.hollow = group.empty();
  out.words =
      fmt::format("{}{}, {:.2f} and {:.2f}", named ? "" : id + " ", group.empty() ? "in no group" : group, x, y);
  out.data_set = sample_set(id, record);
  return out;
}

std::string one_axis(const char* what) {
  return std::string("There is one ") + what + " only: the height of a point says nothing.";
}

}  // namespace

std::string printed_part(const std::string& name) {
  std::string out;
  bool after_letter = false;
  for (const char c : name) {
    const bool digit = c >= '0' && c <= '9';
    if (digit && after_letter) {
      out += "\xE2\x82";  // U+2080 and the nine after it
      out += static_cast<char>(0x80 + (c - '0'));
      continue;
    }
    after_letter = (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
    out += c;
  }
  return out;
}

std::string sample_set(const std::string& id, const std::string& record) {
  std::string out = "sample=" + percent_encoded(id);
  return record.empty() ? out : out + "&record=" + percent_encoded(record);
}

figure::About StructureWords::about(std::string title, std::vector<std::string> said) const {
  figure::About out{std::move(title), std::move(said)};
  const chemistry::Preparation& made = *response.preparation;
  std::vector<std::string> printed;
  for (const std::string& part : made.parts) printed.push_back(printed_part(part));
  out.left_out.push_back(fmt::format("{} by {} ({}{}).", counted(made.samples, "sample"), join(printed, ", "),
                                     made.transform == "none" ? "as measured, " : made.transform + ", ", made.unit));
  if (!made.left_out_samples.empty())
    out.left_out.push_back(fmt::format("Left out for missing cells: {}.", join(made.left_out_samples, ", ")));
  if (!made.left_out_parts.empty())
    out.left_out.push_back(fmt::format("Left out for missing cells: {}.", join(made.left_out_parts, ", ")));
  for (const chemistry::Replaced& one : made.replaced) {
    out.left_out.push_back(fmt::format("{} of {} below the limit or 0: {}.", counted(one.below + one.zeros, "amount"),
                                       printed_part(one.part), made.zero_rule));
  }
  out.left_out.push_back(response.caution);
  return out;
}

std::vector<DrawnPicture> pictures_of(const chemistry::Components& found, const StructureWords& words) {
  if (found.scores.empty() || found.scores[0].values.size() < 2) return {};
  const std::string title = "Principal components";
  std::vector<std::string> said{"Lines point to where a variable grows; names of groups stand at their means."};
  if (!found.ellipses.empty()) said.emplace_back("Ellipses hold 90 % of a group of normal scatter.");
  figure::XyData data;
  data.x_title = axis_title("Component", 0, found.shares, "variance");
  data.y_title = axis_title("Component", 1, found.shares, "variance");
  data.same_scale = true;
  data.axes_through_zero = true;
  data.nothing = "No samples";
  GroupMarks marks;
  for (const chemistry::Score& score : found.scores) marks.add(score.group);
  add_ellipses(found, marks, data);
  const bool named = found.scores.size() <= kMostNamed;
  for (const chemistry::Score& score : found.scores) {
    data.points.push_back(mark_of(score.id, score.record, score.group, score.values[0], score.values[1], marks, named));
  }
  add_loadings(found, data);
  data.legend = marks.legend();
  data.about = words.about(title, std::move(said));
  return {{"biplot", title, figure::xy(data, words.page)}};
}

std::vector<DrawnPicture> pictures_of(const statistics::Clusters& found, const StructureWords& words) {
  std::vector<std::string> said{"Linkage " + found.linkage + ": " + found.linkage_note + "."};
  if (found.cophenetic) said.push_back(fmt::format("Cophenetic correlation {:.3f}.", *found.cophenetic));
  if (found.silhouette) said.push_back(fmt::format("Mean silhouette of the cut {:.2f}.", *found.silhouette));
  if (found.adjusted_rand)
    said.push_back(fmt::format("Agreement with the groups given, adjusted for chance, {:.2f}.", *found.adjusted_rand));
  return cluster_pictures(found, {.about = words.about("Clusters of compositions", std::move(said)),
                                  .rows = "samples",
                                  .page = words.page,
                                  .data_set = [&](std::size_t i) { return sample_set(found.labels[i], ""); }});
}

std::vector<DrawnPicture> pictures_of(const chemistry::Discriminant& found, const StructureWords& words) {
  const std::string title = "Samples sent to groups, each left out in turn";
  figure::HeatTableData table;
  table.about = words.about(title, {fmt::format("{} of {} samples go to their own group when left out; put back, {}.",
                                                found.right_left_out, found.n, found.right_resubstituted)});
  table.title = "Group that the samples are sent to";
  table.rows_word = "groups";
  table.columns_word = "groups";
  table.n_word = "samples";
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    table.columns.push_back({found.labels[i]});
    std::int64_t sum = 0;
    for (const std::int64_t count : found.left_out[i]) sum += count;
    table.rows.push_back({found.labels[i], std::to_string(sum)});
    auto& cells = table.cells.emplace_back();
    for (std::size_t j = 0; j < found.labels.size(); ++j) {
      const std::int64_t count = found.left_out[i][j];
      cells.push_back({static_cast<double>(count) / static_cast<double>(sum), count == 0 ? "" : std::to_string(count),
                       fmt::format("{} of {} go to {}", count, found.labels[i], found.labels[j]), ""});
    }
  }
  std::vector<DrawnPicture> out{{"left-out", title, figure::heat_table(table, words.page)}};
  figure::XyData data;
  const bool flat = found.trace_share.size() < 2;
  data.about = words.about("Discriminant functions",
                           {"Hollow: sent to another group when left out.", flat ? one_axis("function") : ""});
  data.x_title = axis_title("Function", 0, found.trace_share, "separation");
  data.y_title = axis_title("Function", 1, found.trace_share, "separation");
  data.same_scale = !flat;
  data.with_ticks = true;
  GroupMarks marks;
  for (const std::string& label : found.labels) marks.add(label);
  const bool named = found.samples.size() <= kMostNamed;
  for (const chemistry::Assigned& one : found.samples) {
    const double y = flat ? -static_cast<double>(marks.place(one.group)) : one.scores[1];
    figure::XyPoint point = mark_of(one.id, one.record, one.group, one.scores[0], y, marks, named);
    point.hollow = one.left_out != one.group;
    if (point.hollow) point.words += ", sent to " + one.left_out;
    data.points.push_back(std::move(point));
  }
  data.legend = marks.legend();
  out.push_back({"functions", "Discriminant functions", figure::xy(data, words.page)});
  return out;
}

std::vector<DrawnPicture> pictures_of(const chemistry::Variation& found, const StructureWords& words) {
  figure::EstimatesData data;
  const std::string title = "Variation by part";
  data.about = words.about(title, {fmt::format("Total variation {:.4f}.", found.total)});
  data.measure = "Variance of its logarithm against all other parts, summed";
  data.decimals = 3;
  data.rows_word = "parts";
  for (const std::string& part : found.order) {
    data.rows.push_back({.name = printed_part(part),
                         .value = found.tau_by_part.at(part),
                         .low = {},
                         .high = {},
                         .n = {},
                         .data_set = {}});
  }
  std::vector<DrawnPicture> out{{"parts", title, figure::bars(data, words.page)}};
  figure::HeatTableData table;
  const std::string matrix = "Variation matrix";
  table.about = words.about(matrix, {fmt::format("Total variation {:.4f}.", found.total)});
  table.title = "Variance of the logarithm of the ratio of two parts";
  table.rows_word = table.columns_word = "parts";
  double most = 0;
  for (const auto& row : found.tau) most = std::max(most, *std::ranges::max_element(row));
  for (std::size_t i = 0; i < found.parts.size(); ++i) {
    table.rows.push_back({printed_part(found.parts[i])});
    table.columns.push_back({printed_part(found.parts[i])});
    auto& cells = table.cells.emplace_back();
    for (std::size_t j = 0; j < found.parts.size(); ++j) {
      const double value = found.tau[i][j];
      cells.push_back({most > 0 ? value / most : 0, i == j ? "" : fmt::format("{:.3f}", value),
                       fmt::format("{} against {}: {:.4f}", found.parts[i], found.parts[j], value), ""});
    }
  }
  out.push_back({"matrix", matrix, figure::heat_table(table, words.page)});
  return out;
}

std::vector<DrawnPicture> structure_pictures(const ChemistryResponse& response, std::int64_t width_mm) {
  const StructureWords words{response, {width_mm > 0 ? static_cast<double>(width_mm) : figure::kDoubleColumnMm}};
  if (response.components) return pictures_of(*response.components, words);
  if (response.clusters) return pictures_of(*response.clusters, words);
  if (response.membership) return pictures_of(*response.membership, words);
  if (response.discriminant) return pictures_of(*response.discriminant, words);
  if (response.variation) return pictures_of(*response.variation, words);
  if (response.outliers) return pictures_of(*response.outliers, words);
  if (response.dilution) return pictures_of(*response.dilution, words);
  if (response.origin) return pictures_of(*response.origin, words);
  return {};
}

}  // namespace sherd::desk
