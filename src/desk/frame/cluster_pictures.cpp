#include "desk/frame/cluster_pictures.h"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <optional>

#include "figure/bars.h"
#include "figure/dendrogram.h"

namespace sherd::desk {

namespace {

std::optional<double> cut_height(const statistics::Clusters& found) {
  std::int64_t clusters = 0;
  for (const statistics::Member& member : found.cut) clusters = std::max(clusters, member.cluster);
  const auto steps = static_cast<std::int64_t>(found.merges.size());
  const std::int64_t next = steps + 1 - clusters;  // the first step above the cut
  if (clusters < 2 || next < 0 || next >= steps) return std::nullopt;
  const auto at = [&](std::int64_t step) { return found.merges[static_cast<std::size_t>(step)].height; };
  return ((next > 0 ? at(next - 1) : 0) + at(next)) / 2;
}

std::string distance_title(const statistics::Clusters& found) {
  return fmt::format("Branches join at ({}, {} linkage)", found.distance, found.linkage);
}

DrawnPicture tree(const statistics::Clusters& found, ClusterWords words) {
  const std::string title = words.about.title;
  figure::DendrogramData data{std::move(words.about), distance_title(found), words.rows, {}, {}, cut_height(found)};
  for (std::size_t i = 0; i < found.labels.size(); ++i) {
    const std::size_t cluster = i < found.cut.size() ? static_cast<std::size_t>(found.cut[i].cluster) : 0;
    data.leaves.push_back({found.labels[i], cluster, words.data_set(i)});
  }
  for (const statistics::Merge& merge : found.merges)
    data.branches.push_back({static_cast<std::size_t>(merge.a), static_cast<std::size_t>(merge.b), merge.height});
  return {"tree", title, figure::dendrogram(data, words.page)};
}

DrawnPicture silhouettes(const statistics::Clusters& found, ClusterWords words) {
  const std::string title = words.about.title;
  figure::EstimatesData data;
  data.about = std::move(words.about);
  data.rows_word = words.rows;
  data.measure = "Silhouette: 1 well within its cluster, below 0 nearer to another";
  data.decimals = 2;
  std::vector<std::size_t> order(found.cut.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, [&](std::size_t a, std::size_t b) {
    const statistics::Member& left = found.cut[a];
    const statistics::Member& right = found.cut[b];
    return left.cluster != right.cluster ? left.cluster < right.cluster : left.silhouette > right.silhouette;
  });
  for (const std::size_t i : order) {
    const statistics::Member& member = found.cut[i];
    figure::Estimate estimate{.name = fmt::format("{} in {}", member.label, member.cluster),
                              .value = member.silhouette};
    estimate.data_set = words.data_set(i);
    data.rows.push_back(std::move(estimate));
  }
  return {"silhouettes", title, figure::bars(data, words.page)};
}

}  // namespace

std::vector<DrawnPicture> cluster_pictures(const statistics::Clusters& found, ClusterWords words) {
  return {found.merges.empty() ? silhouettes(found, std::move(words)) : tree(found, std::move(words))};
}

}  // namespace sherd::desk
