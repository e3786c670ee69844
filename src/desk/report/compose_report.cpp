#include "desk/report/compose_report.h"

#include <algorithm>

#include "base/text.h"
#include "desk/report/citations.h"
#include "desk/report/report_outline.h"
#include "desk/report/section_chemistry.h"
#include "desk/site/checks/checks.h"

namespace sherd::desk {

namespace {

using report::Section;

/// Tallies that report_items ask for: "tally fabric,context.phase".
std::vector<ReportTally> asked_tallies(const ReportRows& rows, std::int64_t type) {
  std::vector<ReportTally> out;
  for (const ReportItem& item : rows.items) {
    if (!is_for(item.reports, type) || item.shown == Shown::no || !item.shows.starts_with("tally ")) continue;
    ReportTally& tally = out.emplace_back();
    for (const std::string_view field : split(trim(std::string_view(item.shows).substr(6)), ','))
      tally.by.emplace_back(trim(field));
  }
  return out;
}

class Composer {
 public:
  Composer(const ReportInput& input, const ReportWish& wish, Environment& environment, Progress& progress)
      : input_(input), wish_(wish), environment_(environment), progress_(progress) {}

  Result<std::vector<Section>> sections(const Provenance& provenance) {
    std::vector<Section> out;
    for (const SectionPlan& plan : section_plans()) {
      if (!plan.in[static_cast<std::size_t>(input_.type - 1)]) continue;
      SHERD_TRY(auto section, make(plan.id, provenance));
      if (section) out.push_back(std::move(*section));
    }
    return out;
  }

 private:
  Result<std::optional<Section>> make(std::string_view id, const Provenance& provenance) {
    if (id == "comparison") {
      SHERD_TRY(auto section, comparison_section(input_, wish_.store, environment_, progress_));
      return section ? std::move(section) : std::optional(empty(id));
    }
    if (id == "chemistry")
      return chemistry_section(input_.words, wish_.store, input_.site.code, environment_, progress_);
    if (id == "settings") return std::optional(settings(input_, provenance));
    for (const auto& [name, function] : kMakers) {
      if (name == id) return std::optional(function(input_));
    }
    return std::optional(empty(id));
  }

  Section empty(std::string_view id) const { return {std::string(id), input_.words("section." + std::string(id)), {}}; }

  using Maker = Section (*)(const ReportInput&);
  static constexpr std::pair<std::string_view, Maker> kMakers[]{{"introduction", introduction},
                                                                {"background", background},
                                                                {"method", method},
                                                                {"quantities", quantities},
                                                                {"fabrics", fabrics},
                                                                {"forms", forms},
                                                                {"dates", dates},
                                                                {"condition", condition},
                                                                {"use", use},
                                                                {"recommendations", recommendations},
                                                                {"catalogue", catalogue},
                                                                {"archive", archive},
                                                                {"doubts", doubts},
                                                                {"checks", outstanding}};

  const ReportInput& input_;
  const ReportWish& wish_;
  Environment& environment_;
  Progress& progress_;
};

void head(const ReportInput& input, const ReportWish& wish, ComposedReport& out) {
  const report::Words& words = input.words;
  report::Document& document = out.document;
  document.words = words;
  document.title = input.site.title.empty() ? input.site.code : input.site.title;
  document.subtitle = words("report." + std::to_string(input.type));
  document.facts = {{words("fact.site"), input.site.code}};
  const Recording recording = recording_of(input);
  if (!recording.first.empty())
    document.facts.emplace_back(words("fact.recorded"), recording.first == recording.last
                                                            ? recording.first
                                                            : recording.first + " \u2013 " + recording.last);
  if (input.rows.repository && !input.rows.repository->accession.empty())
    document.facts.emplace_back(words("fact.accession"), input.rows.repository->accession);
  document.facts.emplace_back(words("fact.issue"), wish.issue.empty() ? words("fact.draft") : wish.issue);
  document.facts.emplace_back(words("fact.rests"), words("fact.record", {{"record", out.provenance.inputs.front()}}));
  for (const ReportNeed& need : out.needs) document.missing.push_back(need.what);
}

}  // namespace

Result<ReportWish> report_wish(const std::string& store, const std::string& site, std::optional<std::int64_t> type,
                               const std::string& spelling) {
  ReportWish wish{.store = store, .site = site};
  wish.type = type.value_or(2);
  if (wish.type < 1 || wish.type > kTypes)
    return fail(ErrorKind::usage, "unknown_type", "there is no report of type " + std::to_string(wish.type),
                "say 1 (description), 2 (appraisal) or 3 (full analysis)");
  if (!spelling.empty() && spelling != "british" && spelling != "american")
    return fail(ErrorKind::usage, "unknown_spelling", "there is no spelling \"" + spelling + "\"",
                "say british or american");
  if (spelling == "american") wish.spelling = report::Spelling::american;
  return wish;
}

Result<ComposedReport> compose_report(const ReportWish& wish, Environment& environment, Progress& progress) {
  SHERD_TRY(Session session, open_session(environment, wish.store, wish.site));
  SHERD_TRY(const Record record, load_record(session));
  SHERD_TRY(const DatedRecord dated, date_record(record, {}, progress));
  const std::vector<Finding> findings = run_checks({session.site, record, dated});
  ReportInput input{session.site, record, dated, findings};
  input.type = wish.type;
  input.words = report::Words(wish.spelling);
  SHERD_TRY(input.rows, read_report_rows(session));
  SHERD_TRY(input.in_sequence, kept_dates(session, environment));
  tell_apart(input.rows.works, cited_works(input));
  input.extra = asked_tallies(input.rows, wish.type);
  SHERD_CHECK(fill_tallies(input, session, progress));

  ComposedReport out;
  SHERD_TRY(out.provenance, session.provenance(environment));
  out.provenance.seed = 1;
  out.provenance.settings["resamples"] = std::to_string(resamples_for(std::ssize(record.lines)));
  out.warnings = session.store->warnings();
  out.needs = needs_of(input);
  head(input, wish, out);
  SHERD_TRY(out.document.sections, Composer(input, wish, environment, progress).sections(out.provenance));
  place_items(input, session, out.document.sections, out);
  place_texts(input, out.document.sections, out);
  report::number_items(out.document);
  name_plates(out.document);
  fill_texts(input, out);
  if (wish.preview) {
    std::vector<std::string> cited;
    out.problems.clear();  // of the other texts
    auto html = text_html(*wish.preview, input, out, cited);
    if (!html) out.problems.push_back(html.error());
    if (html) out.preview = std::move(*html);
  }
  std::erase_if(out.document.sections, [](const Section& section) { return section.blocks.empty(); });
  return out;
}

}  // namespace sherd::desk
