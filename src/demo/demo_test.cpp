#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "demo/files.h"
#include "demo/generate.h"
#include "demo/scenario.h"

namespace sherd::demo {
namespace {

const DemoSite& site() {
  static const DemoSite kSite = generate().value();
  return kSite;
}

std::string all_bytes(const DemoSite& of) {
  std::string out;
  for (const DemoFile& file : write(of)) out += file.name + "\n" + file.bytes;
  return out;
}

const TrueDate& truth_of(const std::string& context) {
  return *std::ranges::find(site().truth, context, &TrueDate::context);
}

std::set<std::string> planted_ids(std::string_view place) {
  std::set<std::string> ids;
  for (const Planted& planted : site().planted) {
    if (planted.place == place) ids.insert(planted.id);
  }
  return ids;
}

TEST(Demo, same_seed_gives_the_same_bytes_and_another_seed_gives_others) {
  EXPECT_EQ(all_bytes(generate(26).value()), all_bytes(site()));
  EXPECT_NE(all_bytes(generate(27).value()), all_bytes(site()));
}

TEST(Demo, is_of_the_intended_size_whatever_the_seed) {
  for (const std::uint64_t seed : {26U, 1U, 2U, 3U, 4U, 5U, 6U, 7U}) {
    const auto made = generate(seed);
    ASSERT_TRUE(made.has_value()) << made.error().message;
    EXPECT_GE(made->sherds.size(), 1400U) << seed;
    EXPECT_LE(made->sherds.size(), 1600U) << seed;
    EXPECT_GE(made->contexts.size(), 60U);
    EXPECT_LE(made->contexts.size(), 64U);
    EXPECT_EQ(made->fabrics.size(), 30U);
    EXPECT_EQ(made->phases.size(), 8U);
  }
}

TEST(Demo, the_two_areas_do_not_change_in_step) {
  std::map<std::string, std::set<Year>> changes;
  std::map<std::string, Year> end;
  for (const Phase& phase : site().phases) {
    if (end.contains(phase.area)) {
      EXPECT_EQ(*phase.earliest, end[phase.area]) << "phases of one area follow on: " << phase.phase;
      changes[phase.area].insert(*phase.earliest);
    }
    end[phase.area] = *phase.latest;
  }
  ASSERT_EQ(changes.size(), 2U);
  for (const Year year : changes["A"]) EXPECT_FALSE(changes["B"].contains(year)) << year.value;
}

TEST(Demo, contexts_are_dated_within_their_phase) {
  for (const Context& context : site().contexts) {
    const auto phase = std::ranges::find(site().phases, context.phase, &Phase::phase);
    if (phase == site().phases.end()) {
      EXPECT_EQ(context.deposit, Deposit::mixed) << context.context;
      continue;
    }
    EXPECT_EQ(phase->area, context.area);
    EXPECT_GE(truth_of(context.context).began, *phase->earliest) << context.context;
    EXPECT_LE(truth_of(context.context).completed, *phase->latest) << context.context;
    if (context.my_earliest) {
      EXPECT_GE(*context.my_earliest, *phase->earliest) << context.context;
      EXPECT_LE(*context.my_latest, *phase->latest) << context.context;
      EXPECT_FALSE(context.my_reason.empty()) << context.context;
      EXPECT_FALSE(context.my_confidence.empty()) << context.context;
    }
    EXPECT_FALSE(context.description.empty()) << context.context;
  }
}

template <class T>
std::set<std::string> names(const std::vector<T>& rows, std::string T::* member) {
  std::set<std::string> out;
  for (const T& row : rows) EXPECT_TRUE(out.insert(row.*member).second) << "twice: " << row.*member;
  return out;
}

TEST(Demo, every_reference_resolves) {
  const auto contexts = names(site().contexts, &Context::context);
  const auto fabrics = names(site().fabrics, &Fabric::fabric);
  const auto forms = names(site().forms, &Form::form);
  const auto records = names(site().sherds, &RecordLine::record);
  EXPECT_EQ(contexts, names(site().truth, &TrueDate::context));
  for (const Relation& relation : site().relations) {
    EXPECT_TRUE(contexts.contains(relation.later)) << relation.later;
    EXPECT_TRUE(contexts.contains(relation.earlier)) << relation.earlier;
    EXPECT_TRUE(relation.kind.has_value());
  }
  for (const Fabric& fabric : site().fabrics) {
    EXPECT_TRUE(fabric.variant_of.empty() || fabrics.contains(fabric.variant_of)) << fabric.variant_of;
    EXPECT_EQ(fabric.reference, "demo: invented");
  }
  for (const WareDate& date : site().dates) {
    EXPECT_TRUE(fabrics.contains(date.fabric)) << date.fabric;
    EXPECT_TRUE(date.form.empty() || forms.contains(date.form)) << date.form;
    EXPECT_EQ(date.reference, "demo: invented");
  }
  for (const RecordLine& line : site().sherds) {
    EXPECT_TRUE(contexts.contains(line.context)) << line.context;
    EXPECT_TRUE(fabrics.contains(line.fabric)) << line.fabric;
    EXPECT_TRUE(line.form.empty() || forms.contains(line.form)) << line.form;
  }
  for (const Rim& rim : site().rims) EXPECT_TRUE(records.contains(rim.record)) << rim.record;
  for (const Join& join : site().joins) {
    EXPECT_TRUE(records.contains(join.record_a) && records.contains(join.record_b)) << join.vessel;
  }
}

TEST(Demo, own_vessels_were_made_before_their_context_was_complete) {
  std::size_t own = 0;
  for (const TrueVessel& vessel : site().vessels) {
    const TrueDate& date = truth_of(vessel.context);
    EXPECT_LE(vessel.made, vessel.broken);
    if (vessel.origin == Origin::intrusive) {
      EXPECT_GT(vessel.broken, date.completed) << vessel.context;
      continue;
    }
    EXPECT_LE(vessel.broken, date.completed) << vessel.context << ' ' << vessel.fabric;
    if (vessel.origin != Origin::own) continue;
    EXPECT_GE(vessel.broken, date.began) << vessel.context << ' ' << vessel.fabric;
    ++own;
  }
  EXPECT_GT(own, site().vessels.size() / 2);
}

TEST(Demo, the_truth_keeps_to_the_relations_as_they_were) {
  const auto scenario = read_scenario();
  ASSERT_TRUE(scenario.has_value()) << scenario.error().message;
  for (const Relation& relation : scenario->relations) {
    if (relation.kind == RelationKind::same_as || relation.kind == RelationKind::contemporary) continue;
    EXPECT_GE(truth_of(relation.later).began, truth_of(relation.earlier).completed)
        << relation.later << " on " << relation.earlier;
  }
}

/// The vessels of a context that a specialist would count, by ware group; a vessel word counts once.
std::map<std::string, std::int64_t> recorded_vessels(const std::string& context) {
  std::map<std::string, std::int64_t> out;
  for (const RecordLine& line : site().sherds) {
    if (line.context != context) continue;
    EXPECT_TRUE(line.vessel.empty()) << "counted by its word: " << line.vessel;
    out[std::ranges::find(site().fabrics, line.fabric, &Fabric::fabric)->ware_group] += *line.vessels;
  }
  return out;
}

TEST(Demo, the_soakaway_holds_thirty_roman_twenty_medieval_and_five_victorian_vessels) {
  auto vessels = recorded_vessels("2004");
  EXPECT_EQ(vessels["Roman"], 30);
  EXPECT_EQ(vessels["early medieval"] + vessels["medieval"] + vessels["late medieval"], 20);
  EXPECT_EQ(vessels["factory-made"], 5);
  EXPECT_EQ(vessels["post-medieval"], 0);
  for (const TrueVessel& vessel : site().vessels) {
    if (vessel.context != "2004" || vessel.origin != Origin::own) continue;
    EXPECT_GE(vessel.made, Year{1800});
  }
}

TEST(Demo, the_bedding_of_1720_is_nearly_all_roman) {
  EXPECT_EQ(truth_of("1011").completed, Year{1720});
  auto vessels = recorded_vessels("1011");
  EXPECT_EQ(vessels["Roman"], 60);
  EXPECT_LE(vessels["post-medieval"] + vessels["factory-made"], 3);
}

TEST(Demo, one_jug_lies_in_three_contexts_and_joins_between_them) {
  std::map<std::string, std::string> context_of;
  std::set<std::string> contexts;
  for (const RecordLine& line : site().sherds) {
    if (line.vessel != "jug-1") continue;
    contexts.insert(line.context);
    context_of[line.record] = line.context;
  }
  EXPECT_THAT(contexts, testing::ElementsAre("1017", "1019", "2012"));
  const auto crossing = std::ranges::count_if(site().joins, [&](const Join& join) {
    return join.vessel == "jug-1" && context_of[join.record_a] != context_of[join.record_b];
  });
  EXPECT_EQ(crossing, 2);
}

TEST(Demo, a_mended_jug_was_two_centuries_old_when_it_was_broken) {
  const auto jug = std::ranges::find_if(site().vessels, [](const TrueVessel& vessel) {
    return vessel.fabric == "green-glaze-1" && vessel.context == "1019" && vessel.origin == Origin::own &&
           vessel.broken.value - vessel.made.value >= 200;
  });
  ASSERT_NE(jug, site().vessels.end());
  const auto line = std::ranges::find(site().sherds, "jug-2", &RecordLine::vessel);
  ASSERT_NE(line, site().sherds.end());
  EXPECT_EQ(line->condition, "mended");
  EXPECT_EQ(line->fabric, "green-glaze-1");
}

TEST(Demo, three_rims_on_a_line_may_have_145_percent) {
  const auto line = std::ranges::find(site().sherds, "Three plates of a set.", &RecordLine::notes);
  ASSERT_NE(line, site().sherds.end());
  EXPECT_EQ(line->rims, 3);
  EXPECT_EQ(line->rim_percent, Percent{1450});
}

TEST(Demo, a_bag_comes_from_one_context_and_lies_in_one_box) {
  std::map<std::string, std::set<std::string>> contexts;
  std::map<std::string, std::set<std::string>> boxes;
  for (const RecordLine& line : site().sherds) {
    if (line.context != "2020") contexts[line.bag].insert(line.context);  // the planted lines of the cut
    boxes[line.bag].insert(line.box);
  }
  for (const auto& [bag, held] : contexts) EXPECT_EQ(held.size(), 1U) << "bag " << bag;
  for (const auto& [bag, held] : boxes) EXPECT_EQ(held.size(), 1U) << "bag " << bag;
}

TEST(Demo, a_fifth_of_the_lines_is_still_to_be_checked) {
  const auto blank = std::ranges::count(site().sherds, "", &RecordLine::checked_by);
  const double share = static_cast<double>(blank) / static_cast<double>(site().sherds.size());
  EXPECT_NEAR(share, 0.2, 0.01);
  for (const RecordLine& line : site().sherds) EXPECT_NE(line.recorder, line.checked_by);
}

TEST(Demo, rim_rows_agree_with_their_line) {
  std::map<std::string, std::int64_t> tenths;
  std::map<std::string, std::int64_t> rows;
  for (const Rim& rim : site().rims) {
    tenths[rim.record] += rim.rim_percent->tenths;
    ++rows[rim.record];
    EXPECT_LE(rim.rim_percent->tenths, 1000);
    EXPECT_EQ(rim.class_width.has_value(), rim.rim_percent->tenths < 50) << "below 5 percent a diameter is a class";
  }
  ASSERT_GT(rows.size(), 50U);
  for (const RecordLine& line : site().sherds) {
    if (!rows.contains(line.record)) continue;
    EXPECT_EQ(line.rim_percent->tenths, tenths[line.record]) << line.record;
    EXPECT_EQ(line.rims, rows[line.record]) << line.record;
  }
}

TEST(Demo, lines_without_a_planted_mistake_are_sound) {
  auto spoilt = planted_ids("record");
  for (const RecordLine& line : site().sherds) {
    if (spoilt.contains(line.record)) continue;
    ASSERT_TRUE(line.count && line.weight) << line.record;
    EXPECT_GT(line.weight->mg, 0);
    EXPECT_EQ(line.weight->mg % 100, 0) << "weighed to 0.1 g";
    EXPECT_LE(line.vessels.value_or(0), *line.count) << line.record;
    if (line.rim_percent) {
      EXPECT_GE(line.rim_percent->tenths, 30) << line.record;
      EXPECT_EQ(line.rim_percent->tenths % 10, 0) << "whole percent";
      EXPECT_LE(line.rim_percent->tenths, 1000 * line.rims.value_or(1)) << line.record;
      EXPECT_LE(line.rims.value_or(1), *line.count) << line.record;
    }
    if (line.rim_diameter) {
      EXPECT_GE(line.rim_diameter->hundredths_mm, 3000) << line.record;
      EXPECT_EQ(line.rim_diameter->hundredths_mm % 1000, 0) << "rounded to 10 mm";
    }
  }
}

}  // namespace
}  // namespace sherd::demo
