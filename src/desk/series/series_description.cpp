#include "desk/series/series_description.h"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "methods/quantify/natural_order.h"
#include "notation/firing.h"
#include "notation/munsell.h"
#include "notation/scale.h"
#include "notation/scale_classes.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

SeriesColour colour(std::string zone, const std::string& text) {
  SeriesColour out{.zone = std::move(zone), .text = text, .words = {}, .srgb = {}, .to_srgb = {}};
  const auto reading = notation::read_colour(text, reference::munsell());
  if (!reading) return out;
  out.words = reading->words;
  if (!reading->to_words.empty() && reading->to_words != reading->words) out.words += " to " + reading->to_words;
  if (reading->values) {
    out.srgb = reading->values->srgb;
    out.in_gamut = reading->values->in_gamut;
  }
  if (reading->to_values) out.to_srgb = reading->to_values->srgb;
  return out;
}

void grade(Attribute attribute, std::string of, const std::string& text, const std::string& scale,
           std::vector<SeriesGrade>& out) {
  if (text.empty()) return;
  SeriesGrade one{.of = std::move(of), .text = text, .scale = {}, .measure = {}, .source = {}, .trouble = {}};
  const auto& scales = reference::scales().scales;
  const bool named =
      std::ranges::any_of(scales, [&](const Scale& each) { return each.attribute == attribute && each.name == scale; });
  const auto reading = notation::read_scale(attribute, text, named ? scale : std::string{}, "", reference::scales());
  if (reading) {
    one.scale = reading->scale;
    one.source = reading->source;
    if (reading->measure.low || reading->measure.high) one.measure = notation::measure_text(reading->measure);
  } else {
    one.trouble = "on none of the scales of " + std::string(word(attribute));
  }
  out.push_back(std::move(one));
}

void add(SeriesAmount& to, const SeriesAmount& amount) {
  to.lines += amount.lines;
  if (amount.count) to.count = to.count.value_or(0) + *amount.count;
  if (amount.weight) to.weight = Weight{to.weight.value_or(Weight{}).mg + amount.weight->mg};
}

struct GroupLess {
  bool operator()(const std::string& a, const std::string& b) const { return quantify::natural_order(a, b) < 0; }
};

/// Who stands under whom within one ware group.
class Family {
 public:
  explicit Family(std::vector<const FabricEntry*> members) : members_(std::move(members)) {
    std::ranges::sort(members_, [](const FabricEntry* a, const FabricEntry* b) {
      return quantify::natural_order(a->fabric, b->fabric) < 0;
    });
  }

  std::vector<TreeRow> rows() {
    for (const FabricEntry* one : members_) {
      if (!has(one->variant_of)) place(*one, 0);
    }
    for (const FabricEntry* one : members_) place(*one, 0);  // those that come round to themselves
    return std::move(rows_);
  }

 private:
  bool has(const std::string& code) const {
    return std::ranges::any_of(members_, [&](const FabricEntry* one) { return one->fabric == code; });
  }
  void place(const FabricEntry& fabric, std::int64_t depth) {
    if (!placed_.insert(fabric.fabric).second) return;
    rows_.push_back({fabric.fabric, depth});
    for (const FabricEntry* one : members_) {
      if (one->variant_of == fabric.fabric) place(*one, depth + 1);
    }
  }

  std::vector<const FabricEntry*> members_;
  std::set<std::string> placed_;
  std::vector<TreeRow> rows_;
};

}  // namespace

void read_description(FabricEntry& fabric) {
  for (const auto& [zone, text] :
       {std::pair{"outside", &fabric.outside}, std::pair{"core", &fabric.core}, std::pair{"inside", &fabric.inside}}) {
    if (!text->empty()) fabric.colours.push_back(colour(zone, *text));
  }
  if (const auto firing = notation::read_firing(fabric.firing); firing) fabric.firing_words = firing->words;
  grade(Attribute::hardness, "hardness", fabric.hardness, "", fabric.grades);
  for (const InclusionEntry& each : fabric.inclusions) {
    grade(Attribute::frequency, each.inclusion + " frequency", each.frequency == "none" ? "" : each.frequency,
          each.scale, fabric.grades);
    grade(Attribute::sorting, each.inclusion + " sorting", each.sorting, each.scale, fabric.grades);
    grade(Attribute::rounding, each.inclusion + " rounding", each.rounding, each.scale, fabric.grades);
  }
}

std::vector<WareGroup> series_tree(const std::vector<FabricEntry>& fabrics) {
  std::map<std::string, std::vector<const FabricEntry*>, GroupLess> groups;
  for (const FabricEntry& fabric : fabrics) groups[fabric.ware_group].push_back(&fabric);
  std::vector<WareGroup> tree;
  for (auto& [name, members] : groups) {
    WareGroup& group = tree.emplace_back();
    group.ware_group = name;
    for (const FabricEntry* each : members) add(group.amount, *each);
    group.rows = Family(std::move(members)).rows();
  }
  return tree;
}

}  // namespace sherd::desk
