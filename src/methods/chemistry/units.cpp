#include "methods/chemistry/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

namespace sherd::chemistry {

double element_share(const Formula& formula, const AtomicWeights& weights) {
  const double metal = formula.atoms * weights.find(formula.element)->second.weight;
  return metal / (metal + formula.oxygens * weights.find("O")->second.weight);
}

Result<double> converted(double amount, const Formula& from, const Formula& to, const AtomicWeights& weights) {
  if (from.element != to.element) {
    return fail("other_element", formula_text(from) + " cannot be told as " + formula_text(to),
                "an oxide is converted to its own element, and back");
  }
  return amount * element_share(from, weights) / element_share(to, weights);
}

double in_unit(double amount, Unit from, Unit to) {
  if (from == to) return amount;
  return from == Unit::percent ? amount * 10'000 : amount / 10'000;
}

namespace {

constexpr std::array<std::string_view, 10> kMajors{"Si", "Ti", "Al", "Fe", "Mn", "Mg", "Ca", "Na", "K", "P"};
constexpr double kLeast = 80, kMost = 101;

struct Sum {
  double as_oxide = 0, as_element = 0;
  bool oxide = false;
};

std::string note_of(const OxideTotal& total) {
  if (!total.plausible) return "without silicon and aluminium a total says nothing";
  if (*total.plausible) return "";
  if (total.percent > kMost)
    return fmt::format("the oxides come to {:.1f} %, more than there can be: is an amount in the wrong unit?",
                       total.percent);
  return fmt::format("the oxides come to only {:.1f} %: is an amount in the wrong unit, or ten times too small?",
                     total.percent);
}

}  // namespace

OxideTotal oxide_total(std::span<const NamedAmount> amounts, const AtomicWeights& weights) {
  std::map<std::string, Sum> sums;
  for (const NamedAmount& each : amounts) {
    if (std::ranges::find(kMajors, each.formula.element) == kMajors.end()) continue;
    const double percent = in_unit(each.amount, each.unit, Unit::percent);
    const double element = percent * element_share(each.formula, weights);
    Sum& sum = sums[each.formula.element];
    sum.oxide = sum.oxide || each.formula.is_oxide();
    (each.formula.is_oxide() ? sum.as_oxide : sum.as_element) += element;
  }
  OxideTotal total;
  for (const std::string_view element : kMajors) {
    const auto found = sums.find(std::string(element));
    if (found == sums.end()) continue;
    const AtomicWeight& known = weights.find(element)->second;
    Formula oxide{std::string(element), 1, 2};
    if (element == "Al" || element == "Fe") oxide = {std::string(element), 2, 3};
    if (element == "Mn" || element == "Mg" || element == "Ca") oxide = {std::string(element), 1, 1};
    if (element == "Na" || element == "K") oxide = {std::string(element), 2, 1};
    if (element == "P") oxide = {std::string(element), 2, 5};
    const double amount = found->second.oxide ? found->second.as_oxide : found->second.as_element;
    total.parts.push_back({known.oxide, amount / element_share(oxide, weights)});
    total.percent += total.parts.back().percent;
  }
  if (sums.contains("Si") && sums.contains("Al")) total.plausible = total.percent >= kLeast && total.percent <= kMost;
  total.note = note_of(total);
  return total;
}

}  // namespace sherd::chemistry
