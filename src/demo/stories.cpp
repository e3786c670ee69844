#include "demo/stories.h"

#include <algorithm>

namespace sherd::demo {

namespace {

/// What is the same on every line of a vessel.
struct Pot {
  std::string fabric, form, decoration, condition, vessel;
};

Draft line_of(const Pot& pot, const std::string& context, const std::string& part, std::int64_t count, std::int64_t mg,
              std::int64_t vessels) {
  Draft draft;
  RecordLine& line = draft.line;
  line.context = context;
  line.fabric = pot.fabric;
  line.form = pot.form;
  line.part = part;
  line.count = count;
  line.weight = Weight{mg};
  line.vessels = vessels;
  line.condition = pot.condition;
  line.vessel = pot.vessel;
  line.fabric_certainty = Certainty::sure;
  if (!pot.form.empty()) line.form_certainty = Certainty::sure;
  if (part != "handle" && part != "base" && !pot.decoration.empty()) {
    line.decoration = pot.decoration;
    line.decoration_certainty = Certainty::sure;
  }
  return draft;
}

void add_broken_jug(DemoSite& site, DraftsOf& drafts) {
  const Pot jug{"green-glaze-2", "jug", "incised lines", "burnt", "jug-1"};
  Draft rim = line_of(jug, "1019", "rim", 7, 186'400, 1);
  rim.rims = {{55, 110}};
  rim.line.drawing = "12";
  drafts["1019"].push_back(rim);
  drafts["1019"].push_back(line_of(jug, "1019", "handle", 2, 93'800, 0));
  drafts["1019"].push_back(line_of(jug, "1019", "body", 21, 342'600, 0));
  Draft base = line_of(jug, "1017", "base", 4, 209'700, 1);
  base.line.base_diameter = Length{10'000};
  base.line.base_percent = Percent{620};
  drafts["1017"].push_back(base);
  drafts["1017"].push_back(line_of(jug, "1017", "body", 9, 138'200, 0));
  drafts["2012"].push_back(line_of(jug, "2012", "body", 5, 71'500, 1));
  site.vessels.push_back({"1019", jug.fabric, jug.form, jug.decoration, Year{1404}, Year{1412}, Origin::own});
  site.stories.push_back(
      {"1019",
       "jug-1: one green-glazed jug in three contexts. Rim, handle and most of the wall lay on the "
       "burnt floor (1019), the base in the clearance pit (1017), and five scorched sherds had been "
       "thrown into the channel at the other end of the plot (2012). It ties the two areas together."});
}

void add_heirloom(DemoSite& site, DraftsOf& drafts) {
  const Pot jug{"green-glaze-1", "jug", "incised lines", "mended", "jug-2"};
  Draft rim = line_of(jug, "1019", "rim", 4, 98'300, 1);
  rim.rims = {{40, 90}};
  rim.line.drawing = "13";
  rim.line.notes = "Old breaks drilled and riveted with lead.";
  drafts["1019"].push_back(rim);
  Draft body = line_of(jug, "1019", "body", 14, 261'900, 0);
  body.line.notes = "Three pairs of drilled holes, one lead rivet in place; foot worn smooth.";
  drafts["1019"].push_back(body);
  site.vessels.push_back({"1019", jug.fabric, jug.form, jug.decoration, Year{1208}, Year{1412}, Origin::own});
  site.stories.push_back(
      {"1019",
       "jug-2: an early glazed jug made soon after 1200, mended with lead, still in the house when it "
       "burnt in 1412. Old, but not residual."});
}

void add_three_plates(DemoSite& site, DraftsOf& drafts) {
  const Pot plate{"cream-1", "plate", "feather edge", "fresh", ""};
  Draft line = line_of(plate, "1007", "rim", 19, 641'300, 3);
  line.rims = {{60, 240}, {45, 240}, {40, 250}};
  line.line.notes = "Three plates of a set.";
  drafts["1007"].push_back(line);
  for (int i = 0; i < 3; ++i) {
    site.vessels.push_back({"1007", plate.fabric, plate.form, plate.decoration, Year{1778}, Year{1792}, Origin::own});
  }
  site.stories.push_back(
      {"1007", "Three creamware plates on one line: 145 percent of rim, which is right for three rims."});
}

void add_marked_cup(DemoSite& site, DraftsOf& drafts) {
  const Pot cup{"white-1", "cup", "gilt line", "fresh", ""};
  Draft base = line_of(cup, "1002", "base", 1, 21'300, 1);
  base.line.base_diameter = Length{4'500};
  base.line.base_percent = Percent{1000};
  base.line.mark = "printed: MADE IN ENGLAND";
  drafts["1002"].push_back(base);
  site.vessels.push_back({"1002", cup.fabric, cup.form, cup.decoration, Year{1938}, Year{1961}, Origin::own});
}

/// Every ninth line, where it is a wall sherd, came out of the sieve.
void mark_sieved(std::vector<Draft>& drafts, const std::string& sample) {
  for (std::size_t i = 0; i < drafts.size(); i += 9) {
    if (drafts[i].line.part == "body") drafts[i].line.sample = sample;
  }
}

}  // namespace

void tell_stories(DemoSite& site, DraftsOf& drafts) {
  add_broken_jug(site, drafts);
  add_heirloom(site, drafts);
  add_three_plates(site, drafts);
  add_marked_cup(site, drafts);
  site.stories.push_back({"2004",
                          "The soakaway of 1869 to 1871: 30 Roman, 20 medieval and 5 nineteenth-century vessels. The "
                          "commonest pottery is the worst guide to its date."});
  site.stories.push_back({"1011",
                          "Bedding laid in 1720 and full of Roman pottery: only the order of the layers and the stone "
                          "over the door say how late it is."});
  site.stories.push_back({"2013",
                          "The channel stood open from 1192 to 1540, so that its silts run past the fire and past the "
                          "phases of the street end. The two areas do not change in step."});
  site.stories.push_back(
      {"1002", "The service trench of 1961, dug through nearly everything, with nearly everything in it."});
}

void add_odd_lines(DemoSite& site, DraftsOf& drafts) {
  mark_sieved(drafts["1026"], "3");
  Draft crumbs = line_of({"grey-2", "", "", "abraded", ""}, "2024", "body", 164, 41'000, 0);
  crumbs.line.vessels.reset();
  crumbs.line.sample = "4";
  crumbs.line.notes = "Crumbs from the fine mesh.";
  drafts["2024"].push_back(crumbs);
  const Pot chip{"print-blue", "", "printed", "fresh", ""};
  drafts["2016"].push_back(line_of(chip, "2016", "body", 1, 1'800, 1));
  site.vessels.push_back({"2016", chip.fabric, "plate", chip.decoration, Year{1846}, Year{1858}, Origin::intrusive});
}

void join_across_contexts(DemoSite& site) {
  std::map<std::string, const RecordLine*> first_of_vessel;
  std::map<std::pair<std::string, std::string>, bool> met;
  for (const RecordLine& line : site.sherds) {
    if (line.vessel.empty() || !met.emplace(std::pair{line.vessel, line.context}, true).second) continue;
    const auto [first, is_new] = first_of_vessel.emplace(line.vessel, &line);
    if (!is_new) site.joins.push_back({first->second->record, line.record, JoinKind::join_old, line.vessel});
  }
}

}  // namespace sherd::demo
