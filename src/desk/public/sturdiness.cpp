#include "desk/public/sturdiness.h"

#include <algorithm>

#include "base/numbers.h"
#include "base/text.h"
#include "reference/public_side.h"

namespace sherd::desk {

namespace {

using reference::CautionWhen;
using reference::ThemeColumn;

// Common practice, no source: what may be passed from hand to hand.
constexpr double kSmallG = 6, kSolidG = 15, kThinMm = 3, kHeavyG = 1500;

std::string joined(std::initializer_list<std::string_view> parts) {
  std::string out;
  for (const std::string_view part : parts) {
    if (!part.empty()) out += std::string(out.empty() ? "" : "; ") + std::string(part);
  }
  return out;
}

const std::string& text_for(const ObjectTexts& texts, ThemeColumn column) {
  switch (column) {
    case ThemeColumn::vessel_class:
      return texts.vessel_class;
    case ThemeColumn::form:
      return texts.form;
    case ThemeColumn::use:
      return texts.use;
    case ThemeColumn::source:
      return texts.source;
    case ThemeColumn::decoration:
      return texts.decoration;
    case ThemeColumn::mark:
      return texts.mark;
    case ThemeColumn::text:
      break;
  }
  return texts.text;
}

std::string text_for(const ObjectTexts& texts, CautionWhen when) {
  switch (when) {
    case CautionWhen::glaze:
    case CautionWhen::body:
      return texts.ware;
    case CautionWhen::place:
      return texts.place;
    case CautionWhen::burial:
      return texts.burial;
    case CautionWhen::always:
    case CautionWhen::text:
      break;
  }
  return texts.text;
}

}  // namespace

ObjectTexts texts_of(const RecordLine& line, const Fabric* fabric, const Form* form, const Context* context,
                     const Bag* bag) {
  ObjectTexts out;
  out.vessel_class = form ? form->vessel_class : "";
  out.form = joined({replace_all(line.form, "-", " "), form ? form->name : ""});
  out.use = joined({line.use_traces, line.condition});
  out.source = fabric ? fabric->source_area : "";
  out.decoration = line.decoration;
  out.mark = line.mark;
  out.ware = joined({line.surface, replace_all(line.fabric, "-", " "), fabric ? fabric->name : "",
                     fabric ? fabric->ware_group : "", fabric ? fabric->description : ""});
  out.text = joined({line.notes, line.use_traces, line.condition, line.decoration, line.technique, line.surface,
                     fabric ? fabric->description : "", bag ? bag->notes : "",
                     bag && bag->cleaning ? replace_all(std::string(word(*bag->cleaning)), "_", " ") : ""});
  if (context) out.place = joined({context->type, context->feature, context->group});
  out.burial = joined({out.place, context ? context->description : "", context ? context->notes : "", line.notes,
                       line.use_traces, out.form, bag ? bag->notes : ""});
  return out;
}

std::vector<std::string> themes_of(const ObjectTexts& texts) {
  std::vector<std::string> out;
  for (const reference::ThemeRule& rule : reference::theme_rules()) {
    if (std::ranges::find(out, rule.theme) != out.end()) continue;
    if (reference::holds_word(text_for(texts, rule.column), rule.words)) out.push_back(rule.theme);
  }
  return out;
}

std::vector<PublicCaution> cautions_of(const ObjectTexts& texts) {
  std::vector<PublicCaution> out;
  for (const reference::CautionRule& rule : reference::caution_rules()) {
    const std::string text = text_for(texts, rule.when);
    const bool holds = rule.when == CautionWhen::always || reference::holds_word(text, rule.words);
    if (holds && !reference::holds_word(text, rule.unless)) out.push_back({rule.caution, rule.text});
  }
  return out;
}

Sturdiness sturdiness_of(const RecordLine& line, const Fabric* fabric, std::vector<std::string>& because) {
  Sturdiness out = Sturdiness::robust;
  const auto worse = [&](Sturdiness to, std::string why) {
    out = std::max(out, to);
    because.push_back(std::move(why));
  };
  const std::string body = fabric ? joined({fabric->hardness, fabric->description}) : "";
  const std::string state = joined({line.condition, line.notes, line.surface});
  const auto holds = [](const std::string& text, std::vector<std::string> words) {
    return reference::holds_word(text, words);
  };
  if (holds(state, {"flaking", "flaky", "laminating", "laminated", "crumbling", "friable", "cracked", "salts"}))
    worse(Sturdiness::fragile, "its surface or wall is coming apart");
  if (holds(state, {"mended", "glued", "restored", "stuck", "riveted"}))
    worse(Sturdiness::fragile, "it has been mended");
  if (holds(body, {"soft", "powdery", "very soft"}) && !holds(body, {"fairly soft"}))
    worse(Sturdiness::fragile, "its fabric is soft");
  if (holds(body, {"fairly soft"})) worse(Sturdiness::careful, "its fabric is fairly soft");
  if (holds(body, {"flake", "chalky"})) worse(Sturdiness::careful, "its surface is apt to flake");
  if (line.wall && line.wall->mm() < kThinMm) worse(Sturdiness::fragile, "its wall is thin");
  if (holds(body, {"thin", "thrown thin"}) && !line.wall) worse(Sturdiness::careful, "the ware is thin");
  if (lower(line.part) == "profile" || lower(line.part) == "whole" || lower(line.part) == "complete")
    worse(Sturdiness::careful, "much of the pot is there");
  if (!line.weight || !line.count || *line.count < 1) {
    worse(Sturdiness::careful, "weight or number is not recorded");
    return out;
  }
  const double each = line.weight->g() / static_cast<double>(*line.count);
  if (each < kSmallG) {
    worse(Sturdiness::fragile, "its pieces weigh " + format_fixed(each, 1) + " g, too small to pass round");
  } else if (each < kSolidG) {
    worse(Sturdiness::careful, "its pieces weigh " + format_fixed(each, 0) + " g");
  } else if (each > kHeavyG) {
    worse(Sturdiness::careful, "it is heavy: " + format_fixed(each / 1000, 1) + " kg");
  }
  if (because.empty()) because.push_back("hard, and " + format_fixed(each, 0) + " g a piece");
  return out;
}

}  // namespace sherd::desk
