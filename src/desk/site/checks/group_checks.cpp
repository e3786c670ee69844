#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/site/checks/checks.h"
#include "methods/quantify/natural_order.h"

/// Checks of a line against its like, and of vessels, boxes and bags over many lines.
namespace sherd::desk {

namespace {

constexpr std::size_t kEnoughLike = 5;      // lines that make a comparison
constexpr double kWeightTimes = 30;         // a mean sherd weight so many times the usual is a slip
constexpr double kCrumbTimes = 4;           // sieved sherds so much lighter draw a mean down
constexpr Length kSmallDiameter{60 * 100};  // below it a diameter may be in cm

using ContextNames = std::set<std::string, quantify::NaturalLess>;

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

/// What is usual among things that are alike: the median of each group with enough of them.
template <class Key>
class Usual {
 public:
  void add(const Key& key, double value) { values_[key].push_back(value); }
  void settle() {
    for (const auto& [key, values] : values_) {
      if (values.size() > kEnoughLike) medians_[key] = median(values);
    }
  }
  std::optional<double> of(const Key& key) const {
    const auto found = medians_.find(key);
    return found == medians_.end() ? std::nullopt : std::optional(found->second);
  }

 private:
  std::map<Key, std::vector<double>> values_;
  std::map<Key, double> medians_;
};

std::optional<double> mean_weight(const RecordLine& line) {
  if (!line.weight || line.count.value_or(0) < 1) return std::nullopt;
  return line.weight->g() / static_cast<double>(*line.count);
}

void weight_unlike_others(const Check& check, const CheckInput& input, Findings& findings) {
  Usual<std::pair<std::string_view, std::string_view>> usual;
  for (const RecordLine& line : input.record.lines) {
    if (const auto weight = mean_weight(line)) usual.add({line.fabric, line.part}, *weight);
  }
  usual.settle();
  for (const RecordLine& line : input.record.lines) {
    const auto weight = mean_weight(line);
    const auto like = usual.of({line.fabric, line.part});
    if (!weight || !like || *like <= 0 || *weight < kWeightTimes * *like) continue;
    add(findings, check, {"sherds", line.record, "weight_g"},
        line_name(line) + ": " + format_fixed(*weight, 1) + " g a sherd where its like (" + line.fabric +
            (line.part.empty() ? "" : ", " + line.part) + ") have " + format_fixed(*like, 1) + " g",
        "weigh it again; is the decimal point in its place?");
  }
}

/// A rim whose diameter was measured, on a line or on a rim row under it.
struct MeasuredRim {
  const RecordLine* line = nullptr;
  Length diameter;
  bool row = false;
};

std::vector<MeasuredRim> measured_rims(const Record& record) {
  std::vector<MeasuredRim> rims;
  std::map<std::string_view, const RecordLine*> line_of;
  for (const RecordLine& line : record.lines) {
    line_of[line.record] = &line;
    if (line.rim_diameter) rims.push_back({&line, *line.rim_diameter});
  }
  for (const Rim& rim : record.rims) {
    const auto line = line_of.find(rim.record);
    if (rim.rim_diameter && line != line_of.end()) rims.push_back({line->second, *rim.rim_diameter, true});
  }
  return rims;
}

void diameter_in_cm(const Check& check, const CheckInput& input, Findings& findings) {
  const std::vector<MeasuredRim> rims = measured_rims(input.record);
  if (rims.size() <= kEnoughLike) return;
  Usual<std::string_view> by_form;
  std::vector<double> all;
  for (const MeasuredRim& rim : rims) {
    by_form.add(rim.line->form, rim.diameter.mm());
    all.push_back(rim.diameter.mm());
  }
  by_form.settle();
  const double usual_of_all = median(all);
  for (const MeasuredRim& rim : rims) {
    if (rim.diameter >= kSmallDiameter) continue;
    const double usual = by_form.of(rim.line->form).value_or(usual_of_all);
    const double times = usual / rim.diameter.mm();
    if (times < 5 || times > 20) continue;
    add(findings, check, {rim.row ? "rims" : "sherds", rim.line->record, "rim_diameter_mm"},
        (rim.row ? "a rim row of " : "") + line_name(*rim.line) + ": a rim of " + format_fixed(rim.diameter.mm(), 1) +
            " mm where its like have " + format_fixed(usual, 0) + " mm",
        "was it measured in cm?");
  }
}

/// To the gram, so that a box just over its limit does not read as if it held it.
std::string kg_text(Weight weight) { return format_scaled((weight.mg + 500) / 1000, 3) + " kg"; }

void box_over_limit(const Check& check, const CheckInput& input, Findings& findings) {
  if (!input.site.box_limit) return;
  std::map<std::string, std::int64_t> mg;
  for (const RecordLine& line : input.record.lines) {
    if (!line.box.empty() && line.weight) mg[line.box] += line.weight->mg;
  }
  for (const auto& [box, weight] : mg) {
    if (weight <= input.site.box_limit->mg) continue;
    add(findings, check, {"sherds", box, "box"},
        "box " + box + " holds " + kg_text({weight}) + " of pottery, more than its " + kg_text(*input.site.box_limit),
        "move bags to another box; the repository's own limit stands in the project sheet");
  }
}

void vessel_in_several_contexts(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, ContextNames> contexts;
  for (const RecordLine& line : input.record.lines) {
    if (!line.vessel.empty()) contexts[line.vessel].insert(line.context);
  }
  for (const auto& [vessel, where] : contexts) {
    if (where.size() < 2) continue;
    const std::vector<std::string> names(where.begin(), where.end());
    add(findings, check, {"sherds", vessel, "vessel"}, "vessel " + vessel + " lies in contexts " + join(names, ", "),
        "it is counted once in each row shown and once in the total");
  }
}

void vessel_over_whole(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, std::int64_t> tenths;
  const auto by_rows = percent_of_rim_rows(input.record);
  std::map<std::string_view, std::string_view> vessel_of;
  for (const RecordLine& line : input.record.lines) {
    vessel_of[line.record] = line.vessel;
    if (!line.vessel.empty() && line.rim_percent && !by_rows.contains(line.record))
      tenths[line.vessel] += line.rim_percent->tenths;
  }
  for (const Rim& rim : input.record.rims) {
    const std::string vessel(rim.vessel.empty() ? vessel_of[rim.record] : rim.vessel);
    if (!vessel.empty() && rim.rim_percent) tenths[vessel] += rim.rim_percent->tenths;
  }
  for (const auto& [vessel, sum] : tenths) {
    if (sum <= 1000) continue;
    add(findings, check, {"sherds", vessel, "vessel"},
        "vessel " + vessel + " has " + format_scaled(sum, Percent::kDecimals) + " % of rim over all its lines",
        "it counts as one whole rim; are all its lines one vessel?");
  }
}

void bag_in_two_contexts(const Check& check, const CheckInput& input, Findings& findings) {
  std::map<std::string, ContextNames> contexts;
  for (const RecordLine& line : input.record.lines) {
    if (!line.bag.empty()) contexts[line.bag].insert(line.context);
  }
  for (const auto& [bag, where] : contexts) {
    if (where.size() < 2) continue;
    const std::vector<std::string> names(where.begin(), where.end());
    add(findings, check, {"sherds", bag, "bag"}, "bag " + bag + " holds lines of contexts " + join(names, ", "),
        "a bag comes from one context: look at its label");
  }
}

void sieved_crumbs(const Check& check, const CheckInput& input, Findings& findings) {
  struct Amount {
    double weight = 0, count = 0;
  };
  std::map<std::string, std::pair<Amount, Amount>> by_context;  // hand-collected, sieved
  for (const RecordLine& line : input.record.lines) {
    if (!mean_weight(line)) continue;
    auto& [hand, sieved] = by_context[line.context];
    Amount& into = line.sample.empty() ? hand : sieved;
    into.weight += line.weight->g();
    into.count += static_cast<double>(*line.count);
  }
  for (const auto& [context, amounts] : by_context) {
    const auto& [hand, sieved] = amounts;
    if (hand.count < 1 || sieved.count < 1) continue;
    const double by_hand = hand.weight / hand.count;
    const double together = (hand.weight + sieved.weight) / (hand.count + sieved.count);
    if (by_hand < kCrumbTimes * sieved.weight / sieved.count || together > 0.8 * by_hand) continue;
    add(findings, check, {"contexts", context, "recovery"},
        "sieved sherds draw the mean weight of context " + context + " from " + format_fixed(by_hand, 1) +
            " g down to " + format_fixed(together, 1) + " g",
        "report the sieved part apart: tally the lines whose sample is blank, then the others");
  }
}

constexpr std::array kChecks{
    Check{"weight_unlike_others", Severity::warning, "a weight many times its like for fabric and part",
          weight_unlike_others},
    Check{"diameter_in_cm", Severity::warning, "a rim diameter that looks like cm", diameter_in_cm},
    Check{"box_over_limit", Severity::warning, "a box over its weight limit", box_over_limit},
    Check{"bag_in_two_contexts", Severity::warning, "a bag with lines of several contexts", bag_in_two_contexts},
    Check{"vessel_over_whole", Severity::warning, "a vessel with more than one whole rim", vessel_over_whole},
    Check{"vessel_in_several_contexts", Severity::note, "a vessel that lies in several contexts",
          vessel_in_several_contexts},
    Check{"sieved_crumbs", Severity::note, "a sieved sample that draws a mean weight down", sieved_crumbs},
};

}  // namespace

std::span<const Check> group_checks() { return kChecks; }

}  // namespace sherd::desk
