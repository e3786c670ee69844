#pragma once

#include <array>
#include <limits>
#include <span>
#include <string>
#include <vector>

#include "methods/chemistry/composition.h"

/// For tests only.
namespace sherd::chemistry {

struct Sherd {
  const char* id;
  int kiln;  ///< 1 Gloucester, 2 Llanedeyrn, 3 Caldicot, 4 Island Thorns, 5 Ashley Rails
  std::array<double, 9> oxides;
};

inline const std::vector<std::string>& oxide_names() {
  static const std::vector<std::string> kNames{"Al2O3", "Fe2O3", "MgO", "CaO", "Na2O", "K2O", "TiO2", "MnO", "BaO"};
  return kNames;
}

/// Romano-British sherds of five kilns, % oxides by atomic absorption: A. Tubb, A. J. Parker & G. Nickless 1980,
/// Archaeometry 22: 153-171, as printed in M. J. Baxter 2003, Statistics in Archaeology, table 2.2. Three amounts are
/// known to be slips: TiO2 of GA4, MnO of C13 and K2O of C14.
inline const std::vector<Sherd>& kiln_sherds() {
  static const std::vector<Sherd> kSherds{
      {"GA1", 1, {18.8, 9.52, 2, 0.79, 0.4, 3.2, 1.01, 0.077, 0.015}},
      {"GA2", 1, {16.9, 7.33, 1.65, 0.84, 0.4, 3.05, 0.99, 0.067, 0.018}},
      {"GA3", 1, {18.2, 7.64, 1.82, 0.77, 0.4, 3.07, 0.98, 0.087, 0.014}},
      {"GA4", 1, {17.4, 7.48, 1.71, 1.01, 0.4, 3.16, 0.03, 0.084, 0.017}},
      {"GA5", 1, {16.9, 7.29, 1.56, 0.76, 0.4, 3.05, 1, 0.063, 0.019}},
      {"GB1", 1, {17.8, 7.24, 1.83, 0.92, 0.43, 3.12, 0.93, 0.061, 0.019}},
      {"GB2", 1, {18.8, 7.45, 2.06, 0.87, 0.25, 3.26, 0.98, 0.072, 0.017}},
      {"GB3", 1, {16.5, 7.05, 1.81, 1.73, 0.33, 3.2, 0.95, 0.066, 0.019}},
      {"GB4", 1, {18, 7.42, 2.06, 1, 0.28, 3.37, 0.96, 0.072, 0.017}},
      {"GB5", 1, {15.8, 7.15, 1.62, 0.71, 0.38, 3.25, 0.93, 0.062, 0.017}},
      {"GC1", 1, {14.6, 6.87, 1.67, 0.76, 0.33, 3.06, 0.91, 0.055, 0.012}},
      {"GC2", 1, {13.7, 5.83, 1.5, 0.66, 0.13, 2.25, 0.75, 0.034, 0.012}},
      {"GC3", 1, {14.6, 6.76, 1.63, 1.48, 0.2, 3.02, 0.87, 0.055, 0.016}},
      {"GC4", 1, {14.8, 7.07, 1.62, 1.44, 0.24, 3.03, 0.86, 0.08, 0.016}},
      {"GD1", 1, {17.1, 7.79, 1.99, 0.83, 0.46, 3.13, 0.93, 0.09, 0.02}},
      {"GD2", 1, {16.8, 7.86, 1.86, 0.84, 0.46, 2.93, 0.94, 0.094, 0.02}},
      {"GD3", 1, {15.8, 7.65, 1.94, 0.81, 0.83, 3.33, 0.96, 0.112, 0.019}},
      {"GD4", 1, {18.6, 7.85, 2.33, 0.87, 0.38, 3.17, 0.98, 0.081, 0.018}},
      {"GD5", 1, {16.9, 7.87, 1.83, 1.31, 0.53, 3.09, 0.95, 0.092, 0.023}},
      {"GE1", 1, {18.9, 7.58, 2.05, 0.83, 0.13, 3.29, 0.98, 0.072, 0.015}},
      {"GE2", 1, {18, 7.5, 1.94, 0.69, 0.12, 3.14, 0.93, 0.035, 0.017}},
      {"GE3", 1, {17.8, 7.28, 1.92, 0.81, 0.18, 3.15, 0.9, 0.067, 0.017}},
      {"C01", 2, {14.4, 7, 4.3, 0.15, 0.51, 4.25, 0.79, 0.16, 0.019}},
      {"CO2", 2, {13.8, 7.08, 3.43, 0.12, 0.17, 4.14, 0.77, 0.144, 0.02}},
      {"CO3", 2, {14.6, 7.09, 3.88, 0.13, 0.2, 4.36, 0.81, 0.124, 0.019}},
      {"C04", 2, {11.5, 6.37, 5.64, 0.16, 0.14, 3.89, 0.69, 0.087, 0.009}},
      {"CO5", 2, {13.8, 7.06, 5.34, 0.2, 0.2, 4.31, 0.71, 0.101, 0.021}},
      {"C06", 2, {10.9, 6.26, 3.47, 0.17, 0.22, 3.4, 0.66, 0.109, 0.01}},
      {"C07", 2, {10.1, 4.26, 4.26, 0.2, 0.18, 3.32, 0.59, 0.149, 0.017}},
      {"C08", 2, {11.6, 5.78, 5.91, 0.18, 0.16, 3.7, 0.65, 0.082, 0.015}},
      {"C09", 2, {11.1, 5.49, 4.52, 0.29, 0.3, 4.03, 0.63, 0.08, 0.016}},
      {"C10", 2, {13.4, 6.92, 7.23, 0.28, 0.2, 4.54, 0.69, 0.163, 0.017}},
      {"C11", 2, {12.4, 6.13, 5.69, 0.22, 0.54, 4.65, 0.7, 0.159, 0.015}},
      {"C12", 2, {13.1, 6.64, 5.51, 0.31, 0.24, 4.89, 0.72, 0.094, 0.017}},
      {"C13", 2, {12.7, 6.69, 4.45, 0.2, 0.22, 4.7, 0.73, 0.394, 0.024}},
      {"C14", 2, {12.5, 6.44, 3.94, 0.22, 0.23, 0.81, 0.75, 0.177, 0.019}},
      {"GO1", 3, {11.6, 5.39, 3.77, 0.29, 0.06, 4.51, 0.56, 0.11, 0.015}},
      {"G02", 3, {11.8, 5.44, 3.94, 0.3, 0.04, 4.64, 0.59, 0.085, 0.013}},
      {"T11", 4, {18.3, 1.28, 0.67, 0.03, 0.03, 1.96, 0.65, 0.001, 0.014}},
      {"T12", 4, {15.8, 2.39, 0.63, 0.01, 0.04, 1.94, 1.29, 0.001, 0.014}},
      {"T13", 4, {18, 1.5, 0.67, 0.01, 0.06, 2.11, 0.92, 0.001, 0.016}},
      {"T14", 4, {18, 1.88, 0.68, 0.01, 0.04, 2, 1.11, 0.006, 0.022}},
      {"T16", 4, {20.8, 1.51, 0.72, 0.07, 0.1, 2.37, 1.26, 0.002, 0.016}},
      {"A11", 5, {17.7, 1.12, 0.56, 0.06, 0.06, 2.06, 0.79, 0.001, 0.013}},
      {"Al2", 5, {18.3, 1.14, 0.67, 0.06, 0.05, 2.11, 0.89, 0.006, 0.019}},
      {"A16", 5, {16.7, 0.92, 0.53, 0.01, 0.05, 1.76, 0.91, 0.004, 0.013}},
      {"A18", 5, {14.8, 2.74, 0.67, 0.03, 0.05, 2.15, 1.34, 0.003, 0.015}},
      {"A26", 5, {19.1, 1.64, 0.6, 0.1, 0.03, 1.75, 1.04, 0.007, 0.018}},
  };
  return kSherds;
}

inline Composition composition(std::vector<std::string> ids, std::vector<std::string> groups,
                               const std::vector<std::string>& parts, std::vector<double> values,
                               Unit unit = Unit::percent) {
  Composition out;
  out.groups = std::move(groups);
  for (const std::string& part : parts) out.analytes.push_back({part, unit});
  out.values = statistics::Matrix(ids.size(), parts.size());
  out.values.values = std::move(values);
  out.cells.assign(out.values.values.size(), Cell::measured);
  out.ids = std::move(ids);
  return out;
}

/// The sherds of `kilns` but for `without`, with `parts`, grouped by kiln ("kiln 1") where `grouped`.
inline Composition kilns(const std::vector<int>& kilns, const std::vector<std::string>& without,
                         const std::vector<std::string>& parts = oxide_names(), bool grouped = true) {
  std::vector<std::string> ids, groups;
  std::vector<double> values;
  const auto has = [](const auto& list, const auto& one) {
    for (const auto& x : list) {
      if (x == one) return true;
    }
    return false;
  };
  for (const Sherd& sherd : kiln_sherds()) {
    if (!has(kilns, sherd.kiln) || has(without, sherd.id)) continue;
    ids.emplace_back(sherd.id);
    if (grouped) groups.push_back("kiln " + std::to_string(sherd.kiln));
    for (std::size_t j = 0; j < sherd.oxides.size(); ++j) {
      if (has(parts, oxide_names()[j])) values.push_back(sherd.oxides[j]);
    }
  }
  return composition(std::move(ids), std::move(groups), parts, std::move(values));
}
inline const std::vector<int> kAllKilns{1, 2, 3, 4, 5};
inline const std::vector<std::string> kSlips{"GA4", "C13", "C14"};

}  // namespace sherd::chemistry
