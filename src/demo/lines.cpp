#include "demo/lines.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace sherd::demo {

namespace {

constexpr std::array<std::string_view, 6> kTelling{"profile", "rim", "base", "handle", "spout", "body"};
constexpr std::int64_t kSmallestMeasuredBase = 20;
constexpr std::int64_t kSmallestMeasuredRim = 5;

/// Wall and base sherds by themselves seldom tell the form.
bool tells_form(const Remains& remains, std::string_view part, bool put_together) {
  if (put_together || part == "rim" || part == "profile") return true;
  return remains.knows_form && part != "body";
}

RecordLine start_line(const Remains& remains, const std::string& context, std::string_view part,
                      const std::string& vessel) {
  RecordLine line;
  line.context = context;
  line.fabric = remains.recipe->fabric;
  line.fabric_certainty = remains.fabric_certainty;
  if (tells_form(remains, part, !vessel.empty())) {
    line.form = remains.recipe->form;
    line.form_certainty = remains.form_certainty;
  }
  line.part = part;
  const bool bears_decoration = part != "base" && part != "handle" && part != "spout";
  if (bears_decoration && remains.shows_decoration && !remains.recipe->decoration.empty()) {
    line.decoration = remains.recipe->decoration;
    line.decoration_certainty = Certainty::sure;
  }
  line.condition = remains.condition;
  line.judged = remains.judged;
  line.vessel = vessel;
  return line;
}

bool are_like(const RecordLine& a, const RecordLine& b) {
  return a.fabric == b.fabric && a.form == b.form && a.part == b.part && a.decoration == b.decoration &&
         a.condition == b.condition && a.judged == b.judged && a.fabric_certainty == b.fabric_certainty &&
         a.form_certainty == b.form_certainty && a.vessel.empty() && b.vessel.empty() && a.mark.empty() &&
         b.mark.empty() && !a.base_percent && !b.base_percent;
}

std::string draw_mark(const Recipe& recipe, Random& random) {
  constexpr std::array<std::string_view, 6> kPrinted{
      "printed garter, lower half", "printed scroll with part of a pattern's name: ...ROSE",
      "printed legend: WARRANTED",  "impressed anchor-like device",
      "printed crown, legend lost", "impressed numeral 3"};
  const double u = random.uniform();
  if (recipe.fabric == "red-gloss") return u < 0.3 ? "stamp, not legible" : "";
  if (recipe.fabric == "cream-1" || recipe.fabric == "blue-edge") return u < 0.4 ? "impressed workman's mark" : "";
  if (recipe.fabric != "print-blue" && recipe.fabric != "white-1") return "";
  return u < 0.7 ? std::string(kPrinted[random.below(kPrinted.size())]) : "";
}

void measure(Draft& draft, const PartPile& pile, const Remains& remains, std::string_view part, Random& random) {
  RecordLine& line = draft.line;
  if (part == "rim" || part == "profile") {
    draft.rims.push_back({pile.percent, remains.rim_mm});
    draft.rim_rows = random.uniform() < 0.1;
  }
  if (part == "profile" || (part == "base" && pile.percent >= kSmallestMeasuredBase)) {
    line.base_diameter = Length{100 * remains.base_mm};
    line.base_percent = Percent{10 * pile.percent};
  }
  if (part == "base" || part == "profile") line.mark = draw_mark(*remains.recipe, random);
}

bool takes_more_rims(const Draft& draft) { return draft.rims.size() < 3; }

/// The like draft that more sherds of that part may join; nullptr where they stand alone.
Draft* like_draft(std::vector<Draft>& drafts, const Draft& fresh, Random& random) {
  if (fresh.line.part == "profile" || !fresh.line.vessel.empty()) return nullptr;
  const bool is_rim = fresh.line.part == "rim";
  if (is_rim && random.uniform() >= 0.35) return nullptr;
  const auto like = std::ranges::find_if(
      drafts, [&](const Draft& d) { return are_like(d.line, fresh.line) && (!is_rim || takes_more_rims(d)); });
  return like == drafts.end() ? nullptr : &*like;
}

void merge(Draft& into, const Draft& fresh) {
  *into.line.count += *fresh.line.count;
  into.line.weight->mg += fresh.line.weight->mg;
  *into.line.vessels += *fresh.line.vessels;
  into.rims.insert(into.rims.end(), fresh.rims.begin(), fresh.rims.end());
}

}  // namespace

void add_remains(std::vector<Draft>& drafts, const Remains& remains, const std::string& context,
                 const std::string& vessel, Random& random) {
  bool counted = false;
  for (const std::string_view part : kTelling) {
    const auto pile = remains.parts.find(std::string(part));
    if (pile == remains.parts.end()) continue;
    Draft draft{start_line(remains, context, part, vessel), {}, false};
    draft.line.count = pile->second.count;
    draft.line.weight = Weight{pile->second.mg};
    draft.line.vessels = counted ? 0 : 1;
    measure(draft, pile->second, remains, part, random);
    counted = true;
    if (Draft* like = like_draft(drafts, draft, random)) {
      merge(*like, draft);
    } else {
      drafts.push_back(std::move(draft));
    }
  }
}

void settle_rims(Draft& draft) {
  if (draft.rims.empty()) return;
  RecordLine& line = draft.line;
  std::int64_t percent = 0;
  for (const MeasuredRim& rim : draft.rims) percent += rim.percent;
  line.rims = static_cast<std::int64_t>(draft.rims.size());
  line.rim_percent = Percent{10 * percent};
  const bool one_size = std::ranges::all_of(draft.rims, [&](const MeasuredRim& rim) {
    return rim.mm == draft.rims.front().mm && rim.percent >= kSmallestMeasuredRim;
  });
  if (one_size) {
    line.rim_diameter = Length{100 * draft.rims.front().mm};
  } else {
    draft.rim_rows = true;
  }
  if (draft.rims.size() > 1) draft.rim_rows = true;
}

}  // namespace sherd::demo
