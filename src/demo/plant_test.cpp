#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <set>

#include "demo/generate.h"
#include "demo/scenario.h"

namespace sherd::demo {
namespace {

const DemoSite& site() {
  static const DemoSite kSite = generate().value();
  return kSite;
}

const Planted& planted(std::string_view code) {
  const auto found = std::ranges::find(site().planted, code, &Planted::code);
  EXPECT_NE(found, site().planted.end()) << code;
  return *found;
}

const RecordLine& line_of(const Planted& of) {
  const auto found = std::ranges::find(site().sherds, of.id, &RecordLine::record);
  EXPECT_NE(found, site().sherds.end()) << of.code;
  return *found;
}

YearRange range_of(const RecordLine& line) {
  return made_between(site().dates, site().fabrics, line.fabric, line.form, line.decoration);
}

/// Years after completion by which a line's ware is too late for its context; 0 or less where it is not.
std::int64_t too_late_by(const RecordLine& line) {
  const auto truth = std::ranges::find(site().truth, line.context, &TrueDate::context);
  return range_of(line).earliest->value - truth->completed.value;
}

TEST(Planted, all_mistakes_are_listed) {
  std::vector<std::string> codes;
  for (const Planted& each : site().planted) {
    codes.push_back(each.code);
    EXPECT_FALSE(each.sentence.empty() || each.id.empty() || each.place.empty()) << each.code;
  }
  EXPECT_THAT(codes, testing::UnorderedElementsAre(
                         "date_out_of_phase", "dates_against_order", "lone_late_sherd", "rim_percent_over_100",
                         "weight_unlike_others", "pottery_in_cut", "retired_code", "box_over_limit", "sieved_crumbs",
                         "percent_as_fraction", "diameter_in_cm", "more_vessels_than_sherds"));
}

TEST(Planted, an_exchanged_bag_brings_victorian_pottery_into_a_garden_pit) {
  EXPECT_EQ(planted("date_out_of_phase").id, "1013");
  std::set<std::string> late_bags;
  std::set<std::string> bags;
  for (const RecordLine& line : site().sherds) {
    if (line.context != "1013") continue;
    bags.insert(line.bag);
    if (too_late_by(line) > 0) late_bags.insert(line.bag);
  }
  EXPECT_EQ(late_bags.size(), 1U);
  EXPECT_GT(bags.size(), 1U);
  const auto stranger = std::ranges::find_if(site().sherds, [](const RecordLine& line) {
    return line.context == "1005" && range_of(line).latest < Year{1800} && line.fabric == "tin-glaze";
  });
  EXPECT_NE(stranger, site().sherds.end()) << "the other bag lies in the ash pit";
}

/// Whether `to` is reached from `from` along later-to-earlier relations.
bool reaches(const std::vector<Relation>& relations, const std::string& from, const std::string& to) {
  std::set<std::string> seen;
  std::vector<std::string> open{from};
  while (!open.empty()) {
    const std::string at = open.back();
    open.pop_back();
    for (const Relation& relation : relations) {
      const bool is_order = relation.kind != RelationKind::same_as && relation.kind != RelationKind::contemporary;
      if (!is_order || relation.later != at) continue;
      if (relation.earlier == to) return true;
      if (seen.insert(relation.earlier).second) open.push_back(relation.earlier);
    }
  }
  return false;
}

TEST(Planted, one_relation_is_reversed_and_makes_no_loop) {
  const auto scenario = read_scenario().value();
  EXPECT_TRUE(reaches(scenario.relations, "1028", "1035"));
  EXPECT_TRUE(reaches(site().relations, "1035", "1028"));
  for (const Context& context : site().contexts) {
    EXPECT_FALSE(reaches(scenario.relations, context.context, context.context)) << context.context;
    EXPECT_FALSE(reaches(site().relations, context.context, context.context)) << context.context;
  }
}

TEST(Planted, a_chip_of_printed_ware_lies_in_a_medieval_fill) {
  const RecordLine& chip = line_of(planted("lone_late_sherd"));
  EXPECT_EQ(chip.context, "2016");
  EXPECT_EQ(chip.count, 1);
  EXPECT_GT(too_late_by(chip), 200);
  EXPECT_FALSE(chip.judged.has_value());
}

TEST(Planted, no_other_line_is_too_late_for_its_context) {
  for (const RecordLine& line : site().sherds) {
    if (line.judged == Judgement::intrusive || line.record == planted("lone_late_sherd").id) continue;
    if (line.context == "1013" || line.context == "2020") continue;  // the exchanged bag, the sherds of the cut
    EXPECT_LE(too_late_by(line), 0) << line.record << ' ' << line.context << ' ' << line.fabric;
  }
}

TEST(Planted, rims_are_spoilt_in_three_ways) {
  const RecordLine& too_much = line_of(planted("rim_percent_over_100"));
  EXPECT_EQ(too_much.rim_percent, Percent{1300});
  EXPECT_EQ(too_much.rims, 1);
  const RecordLine& fraction = line_of(planted("percent_as_fraction"));
  EXPECT_LT(fraction.rim_percent->tenths, 10);
  ASSERT_EQ(site().as_typed.size(), 1U);
  EXPECT_EQ(site().as_typed.front().record, fraction.record);
  EXPECT_EQ(site().as_typed.front().text, "0.08");
  const RecordLine& small = line_of(planted("diameter_in_cm"));
  EXPECT_GE(small.rim_diameter, Length{1200});
  EXPECT_LE(small.rim_diameter, Length{1800}) << "no pot has a mouth of 18 mm; one of 180 mm is common";
}

TEST(Planted, what_the_import_refuses_is_named_by_no_rim_row_and_no_join) {
  const std::string refused = planted("rim_percent_over_100").id;
  EXPECT_EQ(std::ranges::count(site().rims, refused, &Rim::record), 0);
  EXPECT_EQ(std::ranges::count(site().joins, refused, &Join::record_a), 0);
  EXPECT_EQ(std::ranges::count(site().joins, refused, &Join::record_b), 0);
}

TEST(Planted, amounts_are_spoilt) {
  const RecordLine& heavy = line_of(planted("weight_unlike_others"));
  EXPECT_EQ(heavy.weight, Weight{1'450'000});
  EXPECT_EQ(heavy.count, 1);
  const RecordLine& many = line_of(planted("more_vessels_than_sherds"));
  EXPECT_GT(many.vessels, many.count);
}

TEST(Planted, a_retired_code_is_used_once) {
  const RecordLine& line = line_of(planted("retired_code"));
  const auto fabric = std::ranges::find(site().fabrics, line.fabric, &Fabric::fabric);
  EXPECT_EQ(fabric->status, "retired");
  EXPECT_EQ(std::ranges::count(site().sherds, line.fabric, &RecordLine::fabric), 1);
}

TEST(Planted, only_one_cut_holds_pottery) {
  std::set<std::string> holding;
  for (const RecordLine& line : site().sherds) {
    const auto context = std::ranges::find(site().contexts, line.context, &Context::context);
    if (context->deposit == Deposit::cut || context->deposit == Deposit::structure) holding.insert(line.context);
  }
  EXPECT_THAT(holding, testing::ElementsAre("2020"));
}

TEST(Planted, one_box_is_over_its_limit) {
  std::map<std::string, std::int64_t> mg;
  for (const RecordLine& line : site().sherds) mg[line.box] += line.weight->mg;
  std::vector<std::string> over;
  for (const auto& [box, weight] : mg) {
    if (weight > kBoxLimit.mg) over.push_back(box);
  }
  EXPECT_THAT(over, testing::ElementsAre(planted("box_over_limit").id));
  for (std::size_t box = 1; box <= mg.size(); ++box) EXPECT_TRUE(mg.contains(std::to_string(box))) << "box " << box;
}

TEST(Planted, crumbs_of_a_sieved_sample_drag_a_mean_down) {
  double with_g = 0, without_g = 0, with_n = 0, without_n = 0;
  for (const RecordLine& line : site().sherds) {
    if (line.context != "2024") continue;
    with_g += line.weight->g();
    with_n += static_cast<double>(*line.count);
    if (!line.sample.empty()) continue;
    without_g += line.weight->g();
    without_n += static_cast<double>(*line.count);
  }
  EXPECT_LT(with_g / with_n, 0.75 * without_g / without_n);
}

}  // namespace
}  // namespace sherd::demo
