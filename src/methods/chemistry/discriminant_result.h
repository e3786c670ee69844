#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// A test of the means of several groups on several variables.
struct MeansTest {
  double value = 0, f = 0, df1 = 0, df2 = 0, p = 1;

  template <class V>
  static void fields(V& v) {
    v.field("value", &MeansTest::value);
    v.field("f", &MeansTest::f);
    v.field("df1", &MeansTest::df1);
    v.field("df2", &MeansTest::df2);
    v.field("p", &MeansTest::p);
  }
};

/// One variable alone.
struct OneVariable {
  std::string variable;
  double f = 0, df1 = 0, df2 = 0, p = 1;
  double within_sd = 0;  ///< pooled over the groups

  template <class V>
  static void fields(V& v) {
    v.field("variable", &OneVariable::variable);
    v.field("f", &OneVariable::f);
    v.field("df1", &OneVariable::df1);
    v.field("df2", &OneVariable::df2);
    v.field("p", &OneVariable::p);
    v.field("within_sd", &OneVariable::within_sd);
  }
};

/// Multivariate analysis of variance.
struct Manova {
  std::vector<std::string> labels, variables;
  std::vector<std::int64_t> n;
  std::vector<std::vector<double>> means;  ///< groups x variables
  std::vector<double> eigenvalues;         ///< of E^-1 H, as many as can be above 0
  MeansTest pillai, wilks, hotelling_lawley, roy;
  std::vector<OneVariable> univariate;
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("labels", &Manova::labels);
    v.field("variables", &Manova::variables);
    v.field("n", &Manova::n);
    v.field("group_means", &Manova::means);
    v.field("eigenvalues", &Manova::eigenvalues);
    v.field("pillai", &Manova::pillai);
    v.field("wilks", &Manova::wilks);
    v.field("hotelling_lawley", &Manova::hotelling_lawley);
    v.field("roy", &Manova::roy);
    v.field("univariate", &Manova::univariate);
    v.field("notes", &Manova::notes);
  }
};

/// A sample, where it went when it was left out, and where it lies.
struct Assigned {
  std::string id, record, group, left_out;
  double posterior = 0;        ///< of that group, by the priors
  std::vector<double> scores;  ///< on the functions, about the mean of the groups

  template <class V>
  static void fields(V& v) {
    v.field("id", &Assigned::id);
    v.field("record", &Assigned::record);
    v.field("group", &Assigned::group);
    v.field("left_out", &Assigned::left_out);
    v.field("posterior", &Assigned::posterior);
    v.field("scores", &Assigned::scores);
  }
};

/// Linear discriminant functions, never without the table of samples left out.
struct Discriminant {
  std::vector<std::string> labels, variables;
  std::vector<double> priors;
  std::vector<std::vector<double>> coefficients;  ///< variables x functions; variance within groups is 1
  std::vector<double> trace_share;
  std::vector<std::vector<std::int64_t>> resubstitution, left_out;  ///< rows true, columns predicted
  std::int64_t n = 0, right_resubstituted = 0, right_left_out = 0;
  double by_chance = 0;  ///< share right if all went to the likeliest group
  MeansTest pillai, wilks;
  std::vector<Assigned> samples;
  std::vector<std::string> left_aside;  ///< samples that are in no group, or alone in it
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("labels", &Discriminant::labels);
    v.field("variables", &Discriminant::variables);
    v.field("priors", &Discriminant::priors);
    v.field("coefficients", &Discriminant::coefficients);
    v.field("trace_share", &Discriminant::trace_share);
    v.field("resubstitution", &Discriminant::resubstitution);
    v.field("left_out", &Discriminant::left_out);
    v.field("n", &Discriminant::n);
    v.field("right_resubstituted", &Discriminant::right_resubstituted);
    v.field("right_left_out", &Discriminant::right_left_out);
    v.field("by_chance", &Discriminant::by_chance);
    v.field("pillai", &Discriminant::pillai);
    v.field("wilks", &Discriminant::wilks);
    v.field("assigned", &Discriminant::samples);
    v.field("left_aside", &Discriminant::left_aside);
    v.field("notes", &Discriminant::notes);
  }
};

}  // namespace sherd::chemistry
