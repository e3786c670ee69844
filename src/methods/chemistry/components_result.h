#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// A sample on the components.
struct Score {
  std::string id, group, record;
  std::vector<double> values;  ///< one a component that is shown

  template <class V>
  static void fields(V& v) {
    v.field("id", &Score::id);
    v.field("group", &Score::group);
    v.field("record", &Score::record);
    v.field("values", &Score::values);
  }
};

/// Where 90 of 100 members of a group of normal scatter lie on components 1 and 2, by its mean and covariance.
struct GroupEllipse {
  std::string group;
  std::int64_t n = 0;
  std::array<double, 2> centre{};
  double major = 0, minor = 0;  ///< half axes
  double angle_degrees = 0;     ///< of the major one to component 1, -90 < angle <= 90

  template <class V>
  static void fields(V& v) {
    v.field("group", &GroupEllipse::group);
    v.field("n", &GroupEllipse::n);
    v.field("centre", &GroupEllipse::centre);
    v.field("major", &GroupEllipse::major);
    v.field("minor", &GroupEllipse::minor);
    v.field("angle_degrees", &GroupEllipse::angle_degrees);
  }
};

/// Principal components.
struct Components {
  std::vector<std::string> variables;
  bool standardised = false;        ///< variables divided by their standard deviations: components of correlations
  std::vector<double> eigenvalues;  ///< variances along the components, all of them, from the greatest down
  std::vector<double> shares;       ///< of the sum of eigenvalues
  std::vector<double> means, sds;   ///< of the variables, n - 1
  std::vector<std::vector<double>> loadings;  ///< variables x components shown; columns of length 1, greatest positive
  std::vector<Score> scores;
  std::vector<GroupEllipse> ellipses;  ///< of groups of four samples and more

  template <class V>
  static void fields(V& v) {
    v.field("variables", &Components::variables);
    v.field("standardised", &Components::standardised);
    v.field("eigenvalues", &Components::eigenvalues);
    v.field("shares", &Components::shares);
    v.field("means", &Components::means);
    v.field("sds", &Components::sds);
    v.field("loadings", &Components::loadings);
    v.field("scores", &Components::scores);
    v.field("ellipses", &Components::ellipses);
  }
};

}  // namespace sherd::chemistry
