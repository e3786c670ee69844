#include "desk/public/object_words.h"

#include <algorithm>
#include <cmath>

#include "base/numbers.h"
#include "base/text.h"
#include "reference/glossary.h"
#include "reference/public_side.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kFineYears = 10, kCoarseYears = 50, kLongAgo = 300;

std::string small_first(std::string text) {
  const bool name = text.size() > 1 && text[1] >= 'A' && text[1] <= 'Z';
  if (!text.empty() && !name && text[0] >= 'A' && text[0] <= 'Z') text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

std::string with_article(const std::string& noun) {
  const bool vowel = !noun.empty() && std::string_view("aeiou").find(lower(noun)[0]) != std::string_view::npos;
  return (vowel ? "an " : "a ") + noun;
}

std::string form_name(const RecordLine& line, const Form* form) {
  if (form && !form->name.empty()) return small_first(form->name);
  return replace_all(line.form, "-", " ");
}

bool says(const RecordLine& line, std::initializer_list<std::string> words) {
  return reference::holds_word(line.condition + "; " + line.use_traces + "; " + line.notes,
                               std::vector<std::string>(words));
}

/// The name of a fabric without what only a specialist reads: "Hard sandy ware, dark core" is "hard sandy ware".
std::string ware_name(const RecordLine& line, const Fabric* fabric) {
  if (!fabric || fabric->name.empty()) return replace_all(line.fabric, "-", " ");
  return small_first(fabric->name.substr(0, fabric->name.find(',')));
}

std::string source_sentence(const Fabric* fabric) {
  if (!fabric || fabric->source_area.empty()) return {};
  const std::string area = small_first(fabric->source_area);
  if (area == "local") return "It was made near here.";
  if (area == "region") return "It was made not far from here.";
  return as_sentence("It came from " + area);
}

std::string made_sentence(const std::string& ware, const dating::LineDate& date) {
  const std::string years = plain_years(date.range());
  const std::string verb = date.basis == DateBasis::arrived     ? " came here "
                           : date.basis == DateBasis::deposited ? " were thrown away "
                                                                : " were made ";
  return as_sentence("Pots like this, in " + ware + "," + verb + years);
}

}  // namespace

std::string as_sentence(std::string text) {
  text = std::string(trim(text));
  if (text.empty()) return text;
  if (text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  if (std::string_view(".!?").find(text.back()) == std::string_view::npos) text += ".";
  return text;
}

std::string plain_years(const YearRange& years) {
  if (years.empty()) return {};
  if (!years.latest) return "after " + year_text(*years.earliest);
  if (!years.earliest) return "before " + year_text(*years.latest);
  if (*years.earliest == *years.latest) return "about " + year_text(*years.earliest);
  return "between " + year_text(*years.earliest) + " and " + year_text(*years.latest);
}

std::string years_ago(const YearRange& years, Year now) {
  if (!years.closed()) return {};
  const std::int64_t middle = (years.earliest->value + years.latest->value) / 2, ago = now.value - middle;
  if (ago < kFineYears) return {};
  const std::int64_t step = ago >= kLongAgo ? kCoarseYears : kFineYears;
  const std::int64_t rounded = (ago + step / 2) / step * step;
  return "about " + grouped(rounded) + " years ago";
}

std::string object_title(const RecordLine& line, const Form* form) {
  std::string name = form_name(line, form);
  if (name.empty()) return "Piece of a pot";
  if (name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

std::string part_sentence(const RecordLine& line, const Form* form) {
  const std::string name = form_name(line, form);
  const std::string pot = name.empty() ? "a pot" : with_article(name);
  const bool many = line.count.value_or(1) > 1;
  const std::string begin = many ? "These are " + std::to_string(*line.count) + " pieces " : "This is a piece ";
  const std::string part = lower(line.part);
  std::string out;
  if (part == "profile") {
    out = "This is " + pot + ", from its rim to its base";
  } else if (part == "whole" || part == "complete") {
    out = "This is " + pot + ", whole";
  } else if (part == "body") {
    out = begin + "from the side of " + pot;
  } else if (part.empty()) {
    out = begin + "of " + pot;
  } else {
    out = begin + "from the " + part + " of " + pot;
  }
  if (line.form_certainty && *line.form_certainty != Certainty::sure && !name.empty()) out += " (we think)";
  if (const auto* term = reference::glossary_term(name.empty() ? "-" : name)) out += ": " + small_first(term->meaning);
  return as_sentence(out);
}

std::vector<std::string> look_sentences(const RecordLine& line, const Fabric* fabric) {
  std::vector<std::string> out;
  const std::string ware = ware_name(line, fabric);
  const bool sure = !line.fabric_certainty || *line.fabric_certainty == Certainty::sure;
  if (!ware.empty()) out.push_back(as_sentence((sure ? "It is " : "It may be ") + ware));
  if (const std::string source = source_sentence(fabric); !source.empty()) out.push_back(source);
  if (!line.decoration.empty()) out.push_back(as_sentence("Look for the " + small_first(line.decoration)));
  if (!line.mark.empty()) out.push_back(as_sentence("It has a mark: " + line.mark));
  if (says(line, {"sooted", "soot"})) out.push_back("The black on it is soot from a cooking fire.");
  if (says(line, {"burnt", "burned", "scorched"})) out.push_back("It has been in a fire.");
  if (says(line, {"mended", "repair", "repaired", "rivet", "riveted"}))
    out.push_back("Somebody mended it and used it again.");
  if (says(line, {"lime-coated"})) out.push_back("The white crust comes from lime in the ground.");
  if (says(line, {"abraded", "heavily abraded", "worn", "rolled"}))
    out.push_back("Its edges are worn. It was moved about after it broke.");
  if (line.rim_diameter && line.rim_diameter->mm() > 0)
    out.push_back("The whole rim was " + format_fixed(line.rim_diameter->mm() / 10, 0) + " cm across.");
  return out;
}

std::vector<std::string> reasons(const RecordLine& line, const Fabric* fabric, const dating::LineDate& date,
                                 const DatedContext* context) {
  std::vector<std::string> out;
  if (date.dated()) out.push_back(made_sentence(ware_name(line, fabric), date));
  if (!date.conflicts.empty()) out.emplace_back("Books do not agree on those years, so we give the widest.");
  if (!context) return out;
  if (context->mixed) {
    out.emplace_back("The layer it lay in has been stirred up, so only the piece itself can tell us its age.");
    return out;
  }
  if (context->effective.year)
    out.push_back("The newest pot in or under its layer was not made before " + year_text(*context->effective.year) +
                  ", so the layer closed after that.");
  const YearRange own{context->context->my_earliest, context->context->my_latest};
  if (!own.empty()) out.push_back(as_sentence("Our pottery specialist dates the layer " + plain_years(own)));
  const auto& latest = date.latest;
  if (latest && context->effective.year && *latest < *context->effective.year)
    out.emplace_back("So this piece was old when it got there.");
  return out;
}

std::string found_sentence(const RecordLine& line, const Context* context, const std::string& phase_title) {
  if (!context) return as_sentence("Found in layer " + line.context);
  const std::string type = context->type.empty() || context->type == "fill" ? "layer" : lower(context->type);
  std::string out = "Found in ";
  if (!context->feature.empty() && lower(context->feature) != type)
    out += "the " + small_first(context->feature) + ", in ";
  out += type + " " + line.context;
  if (!phase_title.empty()) out += " (" + small_first(phase_title) + ")";
  return as_sentence(out);
}

std::string words_of(const PublicObject& object) {
  std::string out;
  for (const std::string& sentence : object.what) out += sentence + " ";
  out += object.when + " ";
  for (const std::string& sentence : object.how_known) out += sentence + " ";
  return out + object.found;
}

}  // namespace sherd::desk
