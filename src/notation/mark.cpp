#include "notation/mark.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "base/text.h"
#include "notation/caret.h"
#include "notation/diamond.h"
#include "notation/mark_finder.h"
#include "notation/registered.h"

namespace sherd::notation {

namespace {

constexpr std::size_t kLongest = 300;  ///< bytes
constexpr std::string_view kStart = "cannot read the mark";
constexpr std::string_view kHint =
    "Readable are for example Rd No 821265, Made in England, Ltd, Trade Mark, VR 49, crown over GR 19, Imperial pint, "
    "Nippon, and diamond top=X left=B right=12 bottom=4 class=IV.";

std::optional<Year> year_of(std::optional<int> number) { return number ? std::optional(Year{*number}) : std::nullopt; }

bool same(const std::optional<Year>& a, const std::optional<Year>& b) { return a && b && *a == *b; }

/// The years of several likely answers taken together.
YearRange together(const std::vector<MarkAnswer>& answers) {
  YearRange out;
  bool first = true;
  for (const MarkAnswer& one : answers) {
    if (!one.likely) continue;
    if (first) {
      out = one.range;
      first = false;
      continue;
    }
    if (!one.range.earliest || (out.earliest && *one.range.earliest < *out.earliest)) out.earliest = one.range.earliest;
    if (!one.range.latest || (out.latest && *out.latest < *one.range.latest)) out.latest = one.range.latest;
  }
  return out;
}

class Explainer {
 public:
  Explainer(std::string_view text, const MarkTables& tables) : text_(text), tables_(tables) {}

  MarkReading explain(const FoundMarks& found) {
    fired_in_ = found.fired_in;
    for (const FoundMark& one : found.marks) {
      std::vector<MarkAnswer> answers = one.mark == "registered" ? design(one) : by_rules(one, one.mark);
      narrow(answers);
      keep(std::move(answers));
      if (!one.also.empty()) {
        auto reign = by_rules(one, one.also);
        for (MarkAnswer& answer : reign) answer.dates = fired_in_ ? MarkDates::vessel : MarkDates::stamp;
        narrow(reign);
        keep(std::move(reign));
      }
      if (one.number && one.mark != "registered") district(one);
      caution(one.mark);
    }
    finish(found);
    return std::move(reading_);
  }

 private:
  std::string words(const FoundMark& found) const {
    return std::string(trim(text_.substr(found.at, found.end - found.at)));
  }

  std::vector<MarkAnswer> by_rules(const FoundMark& found, std::string_view mark) {
    std::vector<MarkAnswer> out;
    for (const MarkRule& rule : tables_.rules) {
      if (rule.mark != mark) continue;
      MarkAnswer one;
      one.mark = words(found);
      one.reads = rule.reads;
      one.range = {year_of(rule.earliest), year_of(rule.latest)};
      one.dates = fired_in_ && rule.dates == MarkDates::stamp ? MarkDates::vessel : rule.dates;
      one.nature = rule.nature;
      one.source = rule.cited.source;
      one.known = rule.cited.known;
      one.likely = rule.role == RuleRole::main;
      if (rule.role == RuleRole::exception && !one.range.empty())
        reading_.warnings.push_back(
            fmt::format("\"{}\" is known outside the rule: {} ({})", one.mark, one.reads, one.source));
      out.push_back(std::move(one));
    }
    likely_first(out);
    return out;
  }

  /// A design number with digits lost: all years that it may be of, as one answer.
  std::vector<MarkAnswer> damaged_design(const FoundMark& found) {
    const auto least = read_registered(*found.number, tables_.registered);
    const auto most = read_registered(*found.most, tables_.registered);
    if (!least || !most) return {};
    const Year from = *least->years.earliest;
    const std::optional<Year> to = most->years.latest;
    MarkAnswer one;
    one.mark = words(found);
    const std::string years = !to              ? fmt::format("in {} or later", from.value)
                              : same(from, to) ? fmt::format("in {}", from.value)
                                               : fmt::format("between {} and {}", from.value, to->value);
    one.reads =
        fmt::format("a design from {} to {}, registered {}", grouped(*found.number), grouped(*found.most), years);
    one.range = {from, std::nullopt};
    one.dates = MarkDates::design;
    one.source = least->by_table.front().cited.source;
    one.known = least->by_table.front().cited.known;
    one.likely = true;
    for (const auto& reading : {*least, *most}) {
      for (const std::string& text : reading.because) {
        if (std::ranges::find(reading_.because, text) == reading_.because.end()) reading_.because.push_back(text);
      }
    }
    reading_.warnings.push_back("digits of the number are lost: the years are those of all that it may be");
    caution("rd_unread");
    return {one};
  }

  std::vector<MarkAnswer> design(const FoundMark& found) {
    if (found.most) return damaged_design(found);
    const auto years = read_registered(*found.number, tables_.registered);
    if (!years) return {};
    std::vector<MarkAnswer> out;
    const std::int64_t last = years->years.latest ? years->years.latest->value : years->years.earliest->value;
    for (std::int64_t year = years->years.earliest->value; year <= last; ++year) {
      MarkAnswer one;
      one.mark = words(found);
      one.reads = fmt::format("design {} registered in {}{}", grouped(*found.number), year,
                              years->years.latest ? "" : " or later: the tables end there");
      one.range = {Year{year}, std::nullopt};
      one.dates = MarkDates::design;
      const auto table = std::ranges::find(years->by_table, year, &TableYear::year);
      const Citation& cited = (table == years->by_table.end() ? years->by_table.front() : *table).cited;
      one.source = cited.source;
      one.known = cited.known;
      one.likely = years->by_table.front().year == year;
      out.push_back(std::move(one));
    }
    likely_first(out);
    for (const std::string& text : years->because) reading_.because.push_back(text);
    if (years->by_table.size() > 1) reading_.warnings.push_back("the tables of design numbers differ here");
    if (years->near_boundary) reading_.warnings.push_back("the number is next to the first of a year");
    caution("rd_unread");
    return out;
  }

  void district(const FoundMark& found) {
    for (const VerificationNumber& one : tables_.verification) {
      if (one.number != *found.number) continue;
      reading_.because.push_back(
          fmt::format("number {}: {} {}", one.number, one.district, cited_text(one.cited.source, one.cited.known)));
      return;
    }
    reading_.warnings.push_back(
        fmt::format("whose number {} was is not in the table; the register is Ricketts & Douglas 1996, Marks and "
                    "Marking of Weights "
                    "and Measures of the British Isles",
                    *found.number));
  }

  void caution(std::string_view mark) {
    for (const MarkCaution& one : tables_.cautions) {
      if (one.mark != mark) continue;
      if (fired_in_ && one.text.starts_with("the stamp dates its verification")) continue;
      const std::string text = one.text + " (" + one.cited.source + ")";
      if (std::ranges::find(reading_.not_said, text) == reading_.not_said.end()) reading_.not_said.push_back(text);
    }
  }

  /// Narrows the whole by one mark. A stamp says nothing of when the vessel was made but that it was by then.
  void narrow(const std::vector<MarkAnswer>& answers) {
    const YearRange years = together(answers);
    const bool stamp = !answers.empty() && answers.front().dates == MarkDates::stamp;
    YearRange& all = stamp ? stamped_ : made_;
    if (years.earliest && (!all.earliest || *all.earliest < *years.earliest)) all.earliest = years.earliest;
    if (years.latest && (!all.latest || *years.latest < *all.latest)) all.latest = years.latest;
    (stamp ? any_stamp_ : any_made_) = true;
  }

  void keep(std::vector<MarkAnswer> answers) {
    for (MarkAnswer& one : answers) {
      const std::string years = one.range.empty() ? "no years" : range_text(one.range);
      reading_.because.push_back(fmt::format("{}\"{}\": {}: {} {}", one.likely ? "" : "beside it, ", one.mark,
                                             one.reads, years, cited_text(one.source, one.known)));
      reading_.answers.push_back(std::move(one));
    }
  }

  void finish(const FoundMarks& found) {
    YearRange& range = reading_.range;
    range = any_made_ ? made_ : stamped_;
    if (any_made_ && any_stamp_ && stamped_.latest && (!range.latest || *stamped_.latest < *range.latest))
      range.latest = stamped_.latest;
    if (range.closed() && *range.latest < *range.earliest) {
      reading_.warnings.push_back(fmt::format("the marks exclude each other: not before {}, not after {}",
                                              year_text(*range.earliest), year_text(*range.latest)));
      range = {};
    }
    if (any_stamp_ && !any_made_)
      reading_.warnings.push_back("the years are those of the stamp; the vessel may be older");
    likely_first(reading_.answers);
    certainty();
    std::vector<std::string> unread;
    for (const MarkToken& token : found.unread)
      unread.push_back(std::string(trim(text_.substr(token.at, token.end - token.at))));
    if (!unread.empty()) reading_.warnings.push_back("not read: " + join(unread, " "));
    reading_.reads = range.empty() ? "no years" : range_text(range);
    if (found.marks.size() == 1) {
      std::vector<std::string> likely;
      for (const MarkAnswer& one : reading_.answers) {
        if (one.likely) likely.push_back(one.reads);
      }
      reading_.reads += ": " + join(likely, "; or ");
    }
  }

  /// As sure as the softest of the answers that set an end.
  void certainty() {
    for (const MarkAnswer& one : reading_.answers) {
      if (!one.likely) continue;
      if (one.known == Known::memory && !one.range.empty())
        reading_.warnings.push_back("rests on a value from memory: " + one.reads);
      if (!same(one.range.earliest, reading_.range.earliest) && !same(one.range.latest, reading_.range.latest))
        continue;
      const Certainty soft = one.nature == Nature::limit  ? Certainty::sure
                             : one.nature == Nature::span ? Certainty::probable
                                                          : Certainty::possible;
      reading_.certainty = std::max(reading_.certainty, soft);
    }
  }

  std::string_view text_;
  const MarkTables& tables_;
  bool fired_in_ = false;
  bool any_made_ = false;
  bool any_stamp_ = false;
  YearRange made_;
  YearRange stamped_;
  MarkReading reading_;
};

std::string unknown_words(const FoundMarks& found, const MarkTables& tables) {
  if (found.unread.size() == 1 && found.unread.front().number)
    return "a number alone is no mark; is it Rd No " + found.unread.front().text;
  std::vector<std::string> known;
  for (const MarkWording& wording : tables.wordings) known.push_back(wording.words);
  std::vector<std::string> words;
  for (const MarkToken& token : found.unread) words.push_back(token.text);
  const std::string near = did_you_mean(join(words, " "), known);
  return near.empty() ? "no mark that dates is known here" : "no such mark is known; " + near;
}

}  // namespace

Result<MarkReading> read_mark(std::string_view text, const DiamondTables& diamonds, const MarkTables& marks) {
  text = trim(text);
  if (text.empty()) return unreadable("unreadable_mark", kStart, text, 0, "there is nothing here", kHint);
  if (text.size() > kLongest)
    return unreadable("unreadable_mark", kStart, text, 0, "this is too long for a mark", kHint);
  if (!is_utf8(text)) return unreadable("unreadable_mark", kStart, text, 0, "this is no readable text", kHint);
  if (is_diamond_text(text)) return read_diamond(text, diamonds);
  const FoundMarks found = find_marks(text, marks);
  if (found.marks.empty()) {
    const std::size_t at = found.unread.empty() ? 0 : found.unread.front().at;
    return unreadable("unreadable_mark", kStart, text, at, unknown_words(found, marks), kHint);
  }
  if (found.torn_at)
    return unreadable("unreadable_mark", kStart, text, *found.torn_at, "how many digits are lost is not said",
                      "Write _ for each digit that cannot be read, as in Rd No 8212_5.");
  for (const FoundMark& one : found.marks) {
    if (one.mark == "registered" && !read_registered(*one.number, marks.registered))
      return unreadable("impossible_mark", kStart, text, one.at, "design numbers begin with 1", kHint);
  }
  return Explainer(text, marks).explain(found);
}

}  // namespace sherd::notation
