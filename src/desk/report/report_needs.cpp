#include "desk/report/report_needs.h"

#include <algorithm>
#include <set>

#include "base/text.h"
#include "desk/report/report_outline.h"
#include "desk/report/sections.h"
#include "desk/vessels/register_rows.h"

namespace sherd::desk {

namespace {

/// A text that types from `from` to `to` need, unless something else in the record says it.
struct TextNeed {
  const char* slot;
  const char* need;
  const char* section;
  std::int64_t from, to;
};

constexpr TextNeed kTexts[]{
    {"author", "author", "author", 1, 3},
    {"aims", "aims", "introduction", 1, 3},
    {"significance", "significance", "introduction", 1, 3},
    {"recovery", "recovery", "method", 1, 3},
    {"sampling", "sampling", "method", 1, 3},
    {"selection", "selection", "method", 1, 3},
    {"method", "series", "method", 3, 3},
    {"sources", "sources", "fabrics", 3, 3},
    {"residuality", "residuality", "condition", 3, 3},
    {"use", "use", "use", 3, 3},
    {"comparison", "comparison", "comparison", 3, 3},
    {"discussion", "interpretation", "discussion", 1, 3},
    {"potential", "potential", "recommendations", 2, 2},
    {"tasks", "tasks", "recommendations", 2, 2},
};

/// Rooms by table.
std::string room_of(std::string_view table) {
  if (table == "sheet" || table == "contexts" || table == "phases") return "site";
  if (table == "sherds") return "recording";
  if (table == "fabrics" || table == "forms") return "series";
  if (table == "drawings") return "vessels";
  if (table == "texts" || table == "bibliography" || table == "estimates") return "report";
  return {};
}

class Needs {
 public:
  explicit Needs(const ReportInput& input) : input_(input) {}

  std::vector<ReportNeed> find() {
    texts();
    sheet();
    series();
    if (input_.type == 3) full_analysis();
    sort();
    return std::move(out_);
  }

 private:
  void add(const char* section, std::string what, const char* table, std::string command, std::string slot = {}) {
    out_.push_back({section, std::move(what), table, std::move(command), room_of(table), std::move(slot)});
  }
  std::string words(const char* need) const { return input_.words("need." + std::string(need)); }
  std::string words(const char* need, const std::vector<std::string>& list) const {
    constexpr std::size_t kMost = 8;
    std::vector<std::string> some(list.begin(),
                                  list.begin() + static_cast<std::ptrdiff_t>(std::min(kMost, list.size())));
    std::string text = join(some, ", ");
    if (list.size() > kMost) text += " \u2026 (" + std::to_string(list.size()) + ")";
    return input_.words("need." + std::string(need), {{"list", text}});
  }

  bool has_text(std::string_view slot) const {
    return std::ranges::any_of(input_.rows.texts, [&](const TextBlock& text) {
      return text.section == slot && is_for(text.reports, input_.type) && !trim(text.body).empty();
    });
  }
  /// Said elsewhere in the record.
  bool is_said(std::string_view slot) const {
    if (slot == "recovery")
      return std::ranges::any_of(input_.record.contexts, [](const Context& c) { return !c.recovery.empty(); });
    if (slot == "selection") return !input_.rows.selections.empty();
    if (slot == "tasks") return !input_.rows.estimates.empty();
    if (slot == "method") return !input_.rows.equivalents.empty();
    if (slot == "use")
      return std::ranges::any_of(input_.record.lines, [](const RecordLine& line) { return !line.use_traces.empty(); });
    return false;
  }

  void texts() {
    for (const TextNeed& need : kTexts) {
      if (input_.type < need.from || input_.type > need.to || has_text(need.slot) || is_said(need.slot)) continue;
      add(need.section, words(need.need), "texts",
          "sherdwright add STORE texts text=" + std::string(need.slot) + " section=" + need.slot + " body=\"...\"",
          need.slot);
    }
  }

  void sheet() {
    const Site& site = input_.site;
    const auto edit = [](const char* field) {
      return "sherdwright edit STORE sheet sheet " + std::string(field) + "=\"...\"";
    };
    if (site.title.empty()) add("author", words("title"), "sheet", edit("title"));
    if (!site.counting_rule) add("method", words("counting_rule"), "sheet", edit("counting_rule"));
    if (!site.counted) add("method", words("counted"), "sheet", edit("counted"));
    if (recording_of(input_).first.empty() && !input_.record.lines.empty())
      add("author", words("recorded"), "sherds", "sherdwright edit STORE sherds RECORD recorded_on=YYYY-MM-DD");
    if (!input_.rows.repository) {
      add("archive", words("repository"), "repositories",
          "sherdwright add STORE repositories repository=\"...\" accession=\"...\"");
    } else if (input_.rows.repository->accession.empty()) {
      add("archive", words("accession"), "repositories",
          "sherdwright edit STORE repositories \"" + input_.rows.repository->repository + "\" accession=\"...\"");
    }
    if (input_.type > 1 && input_.record.phases.empty())
      add("background", words("phases"), "phases", "sherdwright import STORE phases.csv --as phases");
  }

  void series() {
    std::set<std::string> used;
    for (const RecordLine& line : input_.record.lines) used.insert(line.fabric);
    std::vector<std::string> bare, unreferenced;
    for (const Fabric& fabric : input_.record.fabrics) {
      if (!used.contains(fabric.fabric)) continue;
      if (fabric.description.empty()) bare.push_back(fabric.fabric);
      if (fabric.reference.empty() && (fabric.earliest || fabric.latest)) unreferenced.push_back(fabric.fabric);
    }
    if (input_.type > 1 && !bare.empty())
      add("fabrics", words("fabrics_used", bare), "fabrics",
          "sherdwright edit STORE fabrics \"" + bare.front() + "\" description=\"...\"");
    if (input_.type == 3 && !unreferenced.empty())
      add("dates", words("references", unreferenced), "fabrics",
          "sherdwright edit STORE fabrics \"" + unreferenced.front() + "\" reference=\"...\"");
  }

  void full_analysis() {
    if (std::ranges::none_of(input_.record.lines, [](const RecordLine& line) { return !line.form.empty(); }))
      add("forms", words("forms"), "sherds", "sherdwright edit STORE sherds RECORD form=\"...\"");
    if (input_.rows.works.empty())
      add("bibliography", words("bibliography"), "bibliography", "sherdwright bibliography STORE FILE.bib");
    if (input_.rows.drawings.empty()) {
      add("catalogue", words("catalogue"), "drawings", "sherdwright add STORE drawings drawing=D1 piece=\"...\"");
      return;
    }
    std::vector<std::string> undrawn, unchecked;
    for (const Drawing& drawing : input_.rows.drawings) {
      const PieceRecord* piece = piece_of(drawing, input_.rows.pieces);
      if ((piece == nullptr || piece->sections.empty()) && drawing.file.empty()) undrawn.push_back(drawing.drawing);
      if (drawing.status && *drawing.status == DrawingStatus::drawn) unchecked.push_back(drawing.drawing);
    }
    if (!undrawn.empty())
      add("catalogue", words("drawings", undrawn), "drawings",
          "sherdwright section FILE.svg --scale 1:4 --in STORE --piece \"...\"");
    if (!unchecked.empty())
      add("catalogue", words("drawings_unchecked", unchecked), "drawings",
          "sherdwright edit STORE drawings \"" + unchecked.front() + "\" status=checked checked_by=\"...\"");
  }

  /// In the order of the report; the head comes first.
  void sort() {
    const auto plans = section_plans();
    std::ranges::stable_sort(out_, {}, [&](const ReportNeed& need) {
      if (need.section == "author") return std::ptrdiff_t{-1};
      return std::ranges::find(plans, std::string_view(need.section), &SectionPlan::id) - plans.begin();
    });
  }

  const ReportInput& input_;
  std::vector<ReportNeed> out_;
};

}  // namespace

std::vector<ReportNeed> needs_of(const ReportInput& input) { return Needs(input).find(); }

}  // namespace sherd::desk
