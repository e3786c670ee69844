#include "demo/plant.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <set>
#include <string>

#include "demo/stories.h"

namespace sherd::demo {

namespace {

/// Finds lines to spoil: each record once, never a told vessel, never unstratified, never the soakaway, whose numbers
/// are the story.
class Spoiler {
 public:
  explicit Spoiler(DemoSite& site) : site_(site) {
    for (const Rim& rim : site.rims) taken_.insert(rim.record);
    for (const Planted& planted : site.planted) taken_.insert(planted.id);
  }

  Result<RecordLine*> take(std::string_view what, const std::function<bool(const RecordLine&)>& fits) {
    for (RecordLine& line : site_.sherds) {
      const bool free = line.vessel.empty() && line.notes.empty() && line.context != "2004" && line.context != "1001" &&
                        line.context != "2001";
      if (!free || taken_.contains(line.record) || !fits(line)) continue;
      taken_.insert(line.record);
      return &line;
    }
    return fail(ErrorKind::internal, "nothing_to_plant", "the demo has no line for this mistake: " + std::string(what));
  }

 private:
  DemoSite& site_;
  std::set<std::string> taken_;
};

bool has_single_rim(const RecordLine& line) { return line.part == "rim" && line.rims == 1 && line.rim_diameter; }

/// The second bag of a context; "" where it has one only.
std::string second_bag(const DemoSite& site, std::string_view context) {
  std::string first;
  for (const RecordLine& line : site.sherds) {
    if (line.context != context) continue;
    if (first.empty()) first = line.bag;
    if (line.bag != first) return line.bag;
  }
  return {};
}

Result<void> swap_bags(DemoSite& site, const std::string& a, const std::string& b) {
  const std::string bag_a = second_bag(site, a);
  const std::string bag_b = second_bag(site, b);
  if (bag_a.empty() || bag_b.empty())
    return fail(ErrorKind::internal, "nothing_to_plant", "the demo has no two bags to exchange");
  for (RecordLine& line : site.sherds) {
    if (line.bag == bag_a) {
      line.context = b;
    } else if (line.bag == bag_b) {
      line.context = a;
    }
  }
  site.planted.push_back({"date_out_of_phase", "context", b,
                          fmt::format("Bags {} and {} were exchanged: the ash pit {} and the rubbish pit {} each hold "
                                      "a bag of the other's pottery.",
                                      bag_a, bag_b, a, b)});
  return {};
}

/// A relation whose reversal makes no loop, so that only the pottery tells it.
Result<void> reverse_relation(DemoSite& site) {
  const auto above =
      std::ranges::find_if(site.relations, [](const Relation& r) { return r.later == "1028" && r.earlier == "1035"; });
  if (above == site.relations.end())
    return fail(ErrorKind::internal, "nothing_to_plant", "the demo has no relation to reverse");
  std::swap(above->later, above->earlier);
  site.planted.push_back({"dates_against_order", "relation", "1035 above 1028",
                          "Typed the wrong way round: the Roman road 1035 lies over the dark soil 1028, which holds "
                          "pottery centuries younger."});
  return {};
}

Result<void> spoil_rims(DemoSite& site, Spoiler& spoiler) {
  SHERD_TRY(RecordLine * line,
            spoiler.take("130 percent", [](const RecordLine& l) { return l.context >= "2010" && has_single_rim(l); }));
  line->rim_percent = Percent{1300};
  site.planted.push_back({"rim_percent_over_100", "record", line->record, "130 percent on a single rim."});

  SHERD_TRY(line, spoiler.take("0.08", [](const RecordLine& l) { return l.context == "1032" && has_single_rim(l); }));
  line->rim_percent = Percent{1};
  site.as_typed.push_back({line->record, "rim_percent", "0.08"});
  site.planted.push_back({"percent_as_fraction", "record", line->record, "Rim percent typed as 0.08 for 8."});

  const auto between = [](std::int64_t from_mm, std::int64_t to_mm) {
    return [=](const RecordLine& l) {
      return has_single_rim(l) && *l.rim_diameter >= Length{100 * from_mm} && *l.rim_diameter <= Length{100 * to_mm};
    };
  };
  auto wide = spoiler.take("14 for 140", between(140, 140));
  if (!wide) wide = spoiler.take("12 to 18 for 120 to 180", between(120, 180));
  SHERD_TRY(line, wide);
  const double mm = line->rim_diameter->mm();
  line->rim_diameter = Length{line->rim_diameter->hundredths_mm / 10};
  site.planted.push_back({"diameter_in_cm", "record", line->record,
                          fmt::format("Rim diameter in cm: {:.0f} for {:.0f} mm.", mm / 10, mm)});
  return {};
}

Result<void> spoil_amounts(DemoSite& site, Spoiler& spoiler) {
  SHERD_TRY(RecordLine * line, spoiler.take("1450 for 14.5", [](const RecordLine& l) {
    return l.fabric == "grey-2" && l.part == "body" && l.count == 1 && l.form.empty();
  }));
  line->weight = Weight{1'450'000};
  site.planted.push_back(
      {"weight_unlike_others", "record", line->record, "A weight of 1450 g for 14.5 g: the point was lost."});

  SHERD_TRY(line, spoiler.take("vessels above sherds", [](const RecordLine& l) {
    return l.context >= "1015" && l.part == "body" && (l.count == 2 || l.count == 3) && l.vessels > 0;
  }));
  line->vessels = 5;
  site.planted.push_back(
      {"more_vessels_than_sherds", "record", line->record, fmt::format("Five vessels from {} sherds.", *line->count)});

  SHERD_TRY(line, spoiler.take("a retired code",
                               [](const RecordLine& l) { return l.fabric == "grey-2" && l.part == "body"; }));
  line->fabric = "grey-9";
  site.planted.push_back({"retired_code", "record", line->record, "Recorded as grey-9, a code withdrawn for grey-2."});
  return {};
}

Result<void> book_to_cut(DemoSite& site, Spoiler& spoiler) {
  std::string records;
  for (int i = 0; i < 2; ++i) {
    SHERD_TRY(RecordLine * line, spoiler.take("pottery in a cut", [](const RecordLine& l) {
      return l.context == "2019" && l.judged != Judgement::residual;
    }));
    line->context = "2020";
    records += (i > 0 ? "; " : "") + line->record;
  }
  site.planted.push_back({"pottery_in_cut", "context", "2020",
                          "Records " + records + " are booked to 2020, which is a cut; they belong to its fill 2019."});
  return {};
}

/// Empties the boxes behind the one that holds the middle silt of the channel into it, and numbers the rest anew.
void overfill_box(DemoSite& site) {
  constexpr std::int64_t kOverfullMg = 10'800'000;
  std::map<std::int64_t, std::int64_t> box_mg;
  for (const RecordLine& line : site.sherds) box_mg[std::stoll(line.box)] += line.weight->mg;
  const auto start = std::ranges::find(site.sherds, "2012", &RecordLine::context);
  const std::int64_t full = std::stoll(start->box);
  std::int64_t last = full;
  std::int64_t held = box_mg[full];
  while (held < kOverfullMg && box_mg.contains(last + 1)) held += box_mg[++last];
  for (RecordLine& line : site.sherds) {
    const std::int64_t box = std::stoll(line.box);
    line.box = std::to_string(box <= full ? box : box <= last ? full : box - (last - full));
  }
  site.planted.push_back({"box_over_limit", "box", std::to_string(full),
                          fmt::format("{:.1f} kg in one box.", static_cast<double>(held) / 1e6)});
}

void list_odd_lines(DemoSite& site) {
  const auto crumbs = std::ranges::find_if(site.sherds, [](const RecordLine& l) { return l.sample == "4"; });
  site.planted.push_back(
      {"sieved_crumbs", "context", "2024",
       "Record " + crumbs->record +
           ": 164 crumbs of a sieved sample, 41 g together. Counted as sherds they drag the mean weight of "
           "context 2024 down."});
  const auto chip = std::ranges::find_if(
      site.sherds, [](const RecordLine& l) { return l.context == "2016" && l.fabric == "print-blue"; });
  site.planted.push_back({"lone_late_sherd", "record", chip->record,
                          "One chip of blue-printed ware in the backfill of tan pit 1, taken down by a mole."});
}

}  // namespace

Result<void> plant_mistakes(DemoSite& site) {
  overfill_box(site);
  list_odd_lines(site);
  Spoiler spoiler(site);
  SHERD_CHECK(swap_bags(site, "1005", "1013"));
  SHERD_CHECK(reverse_relation(site));
  SHERD_CHECK(spoil_rims(site, spoiler));
  SHERD_CHECK(spoil_amounts(site, spoiler));
  return book_to_cut(site, spoiler);
}

}  // namespace sherd::demo
