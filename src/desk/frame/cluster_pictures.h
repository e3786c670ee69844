#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "desk/frame/picture.h"
#include "figure/page.h"
#include "methods/statistics/result.h"

namespace sherd::desk {

struct ClusterWords {
  figure::About about;  ///< its title is that of the figure
  std::string rows;     ///< "contexts"
  figure::Page page;
  std::function<std::string(std::size_t)> data_set;  ///< of the thing at that place
};
/// "tree", or of k-means "silhouettes".
std::vector<DrawnPicture> cluster_pictures(const statistics::Clusters& found, ClusterWords words);

}  // namespace sherd::desk
