#include "methods/chemistry/clusters.h"

#include <algorithm>

#include "methods/chemistry/components.h"

namespace sherd::chemistry {

namespace {

std::string distance_name(const Prepared& samples, bool standardise) {
  const std::string& how = samples.about.transform;
  std::string name = how == "clr" || how == "ilr" ? "Aitchison" : how == "none" ? "amounts" : how;
  return standardise ? name + ", standardised" : name;
}

}  // namespace

Result<statistics::Clusters> clusters(const Prepared& samples, bool standardise,
                                      statistics::ClusteringSettings settings, Progress& progress) {
  SHERD_CHECK(statistics::check_clustering(samples.ids.size(), settings));
  const Centred points = centred(samples.values, false);
  statistics::Matrix values = samples.values;
  if (standardise) {
    for (std::size_t j = 0; j < values.columns; ++j) {
      if (!(points.sds[j] > 0)) {
        return fail("constant_variable",
                    samples.about.variables[j] + " is the same in all samples and cannot be standardised",
                    "leave it out, or do not standardise");
      }
    }
    values = centred(samples.values, true).values;
  }
  const bool grouped = std::ranges::any_of(samples.groups, [](const std::string& one) { return !one.empty(); });
  settings.groups = grouped ? samples.groups : std::vector<std::string>{};
  const statistics::Distances distances = statistics::euclidean_distances(values);
  const statistics::Clustered things{
      .labels = samples.ids, .distance = distance_name(samples, standardise), .points = values, .distances = distances};
  return statistics::clusters_of(things, settings, progress);
}

}  // namespace sherd::chemistry
