#include "figure/dendrogram.h"

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "figure/axis.h"
#include "figure/frame.h"
#include "figure/scale.h"
#include "figure/shapes.h"
#include "figure/words.h"

namespace sherd::figure {
namespace {

constexpr double kRowMm = 4, kNameShare = 0.3, kLineMm = 0.4;

// A node that is drawn: a leaf, a folded branch, or a branch of two nodes.
struct Node {
  double y = 0, height = 0;
  std::size_t cluster = 0;
  bool mixed = false;  // of several clusters
  std::size_t leaves = 1;
  std::size_t first = 0;  // leaf that names it
};

class Tree {
 public:
  Tree(const DendrogramData& data, std::size_t most) : data_(data) {
    const std::size_t n = data.leaves.size();
    folded_ = n > most ? n - most : 0;  // steps that are not drawn
    nodes_.resize(n + data.branches.size());
    for (std::size_t i = 0; i < n; ++i) nodes_[i] = {0, 0, data.leaves[i].cluster, false, 1, i};
    for (std::size_t s = 0; s < data.branches.size(); ++s) {
      const Branch& branch = data.branches[s];
      const Node &a = nodes_[branch.a], &b = nodes_[branch.b];
      Node& node = nodes_[n + s];
      node.height = std::max({branch.height, a.height, b.height});
      node.leaves = a.leaves + b.leaves;
      node.first = std::min(a.first, b.first);
      node.mixed = a.mixed || b.mixed || a.cluster != b.cluster;
      node.cluster = a.cluster;
    }
    if (!nodes_.empty()) walk(nodes_.size() - 1);
  }

  bool is_row(std::size_t node) const { return node < data_.leaves.size() + folded_; }
  const std::vector<Node>& nodes() const { return nodes_; }
  const std::vector<std::size_t>& rows() const { return rows_; }
  std::size_t first_branch() const { return folded_; }

  void set_row_mm(double top, double row_mm) {
    for (std::size_t k = 0; k < rows_.size(); ++k) nodes_[rows_[k]].y = top + (static_cast<double>(k) + 0.5) * row_mm;
    for (std::size_t s = folded_; s < data_.branches.size(); ++s) {
      const Branch& branch = data_.branches[s];
      nodes_[data_.leaves.size() + s].y = (nodes_[branch.a].y + nodes_[branch.b].y) / 2;
    }
  }

 private:
  // Rows in the order of the branches, the one of the earlier leaf first, without recursion: a chain may be long.
  void walk(std::size_t root) {
    std::vector<std::size_t> open{root};
    while (!open.empty()) {
      const std::size_t node = open.back();
      open.pop_back();
      if (is_row(node)) {
        rows_.push_back(node);
        continue;
      }
      const Branch& branch = data_.branches[node - data_.leaves.size()];
      const bool a_first = nodes_[branch.a].first < nodes_[branch.b].first;
      open.push_back(a_first ? branch.b : branch.a);
      open.push_back(a_first ? branch.a : branch.b);
    }
  }

  const DendrogramData& data_;
  std::size_t folded_ = 0;
  std::vector<Node> nodes_;
  std::vector<std::size_t> rows_;
};

Paint line_of(const Node& node) {
  if (node.mixed || node.cluster == 0 || node.cluster > kCategories) return Paint::axis;
  return category_line(node.cluster - 1);
}

std::string name_of(const DendrogramData& data, const Node& node) {
  const std::string& first = data.leaves[node.first].name;
  if (node.leaves == 1) return first;
  return first + " and " + grouped(static_cast<long long>(node.leaves - 1)) + " more";
}

class Drawer {
 public:
  Drawer(const DendrogramData& data, const Page& page) : data_(data), page_(usable(page)), tree_(data, most_rows()) {
    for (const std::size_t row : tree_.rows())
      name_mm_ = std::max(name_mm_, text_width_mm(name_of(data_, tree_.nodes()[row]), Face::sans, kTickPoints));
    name_mm_ = std::min(name_mm_, page_.width_mm * kNameShare);
    left_ = name_mm_ + 7;
    std::vector<std::string> sentences;
    if (tree_.first_branch() > 0) {
      sentences.push_back("Of " + grouped(static_cast<long long>(data_.leaves.size())) + " " +
                          (data_.rows_word.empty() ? "rows" : data_.rows_word) + ", " +
                          grouped(static_cast<long long>(tree_.rows().size())) +
                          " branches are shown; a row may stand for several.");
    }
    sentences.insert(sentences.end(), data_.about.left_out.begin(), data_.about.left_out.end());
    notes_ = note_lines(sentences, page_.width_mm);
    top_ = line_mm(kNotePoints) + 1.5;
    tree_.set_row_mm(top_, kRowMm);
    bottom_ = top_ + kRowMm * static_cast<double>(tree_.rows().size());
    const double highest = tree_.nodes().back().height;
    scale_ = LinearScale(0, highest > 0 ? highest * 1.03 : 1, left_, page_.width_mm - 2);
  }

  std::string draw() {
    const std::vector<AxisTick> axis = value_axis(scale_, left_ - 4, page_.width_mm);
    draw_rules(svg_, axis, top_, bottom_);
    draw_labels_below(svg_, axis, bottom_);
    const std::string title = fitted(data_.axis_title, Face::sans_strong, kNotePoints, page_.width_mm - left_);
    svg_.text({left_, top_ - 1.8}, title, {kNotePoints, Face::sans_strong});
    for (std::size_t s = tree_.first_branch(); s < data_.branches.size(); ++s) draw_branch(s);
    for (const std::size_t row : tree_.rows()) draw_row(row);
    if (data_.cut) draw_cut();
    draw_notes(svg_, notes_, bottom_ + kAxisMm);
    return svg_.finish(page_.width_mm, bottom_ + kAxisMm + notes_mm(notes_), data_.about.title);
  }

 private:
  std::size_t most_rows() const { return static_cast<std::size_t>((page_.max_height_mm - 26) / kRowMm); }

  void draw_branch(std::size_t s) {
    const Branch& branch = data_.branches[s];
    const Node &node = tree_.nodes()[data_.leaves.size() + s], &a = tree_.nodes()[branch.a],
               &b = tree_.nodes()[branch.b];
    svg_.begin_mark(
        counted(static_cast<std::int64_t>(node.leaves), "row") + " joined at " + number_text(branch.height, 2), "");
    const double x = scale_.mm(node.height);
    const std::vector<Segment> strokes{{{scale_.mm(a.height), a.y}, {x, a.y}}, {{scale_.mm(b.height), b.y}, {x, b.y}}};
    svg_.lines(std::span(strokes).first(1), line_of(a), kLineMm);
    svg_.lines(std::span(strokes).last(1), line_of(b), kLineMm);
    svg_.line({x, a.y}, {x, b.y}, line_of(node), kLineMm);
    svg_.end_mark();
  }

  void draw_row(std::size_t row) {
    const Node& node = tree_.nodes()[row];
    const std::string full = name_of(data_, node), name = fitted(full, Face::sans, kTickPoints, name_mm_ + 0.01);
    const std::string cluster = node.cluster > 0 && !node.mixed ? std::to_string(node.cluster) : "";
    svg_.begin_mark(full + (cluster.empty() ? "" : ", cluster " + cluster),
                    node.leaves == 1 ? data_.leaves[node.first].data_set : "");
    svg_.target({0, node.y - kRowMm / 2, left_ - 0.8, kRowMm});  // the whole row takes a click
    svg_.text({0, node.y + 0.85}, name, {kTickPoints}, name == full ? "" : full);
    if (node.cluster > 0 && node.cluster <= kCategories && !node.mixed)
      svg_.rect({left_ - 2.2, node.y - 1.2, 1.4, 2.4}, {category(node.cluster - 1)});
    svg_.text({left_ - 2.8, node.y + 0.85}, cluster, {kTickPoints, Face::sans, Paint::quiet, Anchor::end});
    svg_.end_mark();
  }

  void draw_cut() {
    const double x = scale_.mm(*data_.cut);
    if (x < left_ || x > page_.width_mm) return;
    svg_.begin_mark("cut at " + number_text(*data_.cut, 2), "");
    const std::vector<Point> line{{x, top_}, {x, bottom_}};
    draw_dashed(svg_, line, Paint::ink_line, 0.35);
    svg_.end_mark();
  }

  const DendrogramData& data_;
  Page page_;
  Tree tree_;
  Svg svg_;
  LinearScale scale_{0, 1, 0, 1};
  double name_mm_ = 0, left_ = 0, top_ = 0, bottom_ = 0;
  std::vector<std::string> notes_;
};

bool is_whole(const DendrogramData& data) {
  const std::size_t n = data.leaves.size();
  if (n < 2 || data.branches.size() + 1 != n) return false;
  for (std::size_t s = 0; s < data.branches.size(); ++s) {
    if (data.branches[s].a >= n + s || data.branches[s].b >= n + s || !std::isfinite(data.branches[s].height))
      return false;
  }
  return true;
}

}  // namespace

std::string dendrogram(const DendrogramData& data, const Page& page) {
  if (!is_whole(data)) return empty_figure(data.about, page, "Nothing to join");
  return Drawer(data, page).draw();
}

}  // namespace sherd::figure
