#include "desk/assemblage/context_rows.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "desk/dates/kept_dates.h"

namespace sherd::desk {

namespace {

void note(const Selection& selection, const SelectedLines& selected, const std::string& field, CompareInput& input) {
  input.about.where = selection.where;
  input.about.doubtful_lines = selected.doubtful;
  input.about.unchecked_lines = selected.unchecked;
  input.about.blank_lines = selected.blank;
  const auto left = [&](std::int64_t lines, const std::string& what) {
    if (lines > 0) input.warnings.push_back("left out: " + counted(lines, what + "line"));
  };
  left(selected.doubtful, "doubtful ");
  left(selected.unchecked, "unchecked ");
  if (selected.blank > 0)
    input.warnings.push_back("left out: " + counted(selected.blank, "line") + " without " + field);
}

bool is_of_contexts(const std::string& field) { return field == "context" || field.starts_with("context."); }

std::optional<YearRange> both_ends(const YearRange& range) {
  return range.closed() && *range.earliest <= *range.latest ? std::optional(range) : std::nullopt;
}

/// Years of a context from one source.
class Years {
 public:
  Years(const ContextRows& contexts, YearSource source) : source_(source) {
    for (const Phase& phase : contexts.record.phases)
      phases_.emplace(phase.phase, YearRange{phase.earliest, phase.latest});
  }

  Result<void> read_kept(const Session& session, const Environment& environment) {
    SHERD_TRY(const KeptDates kept, kept_dates(session, environment));
    for (const KeptDate& date : kept.contexts) kept_.emplace(date.context, YearRange{date.earliest, date.latest});
    return {};
  }

  std::optional<YearRange> of(const DatedContext& context) const {
    if (context.mixed) return std::nullopt;
    const Context& sheet = *context.context;
    switch (source_) {
      case YearSource::own:
        return both_ends({sheet.my_earliest, sheet.my_latest});
      case YearSource::spot:
        return context.spot ? both_ends({context.spot->earliest, context.spot->latest}) : std::nullopt;
      case YearSource::sequence:
        return found(kept_, sheet.context);
      case YearSource::phase:
        return found(phases_, sheet.phase);
    }
    return std::nullopt;
  }

 private:
  using Ranges = std::map<std::string, YearRange, std::less<>>;
  static std::optional<YearRange> found(const Ranges& ranges, const std::string& name) {
    const auto at = ranges.find(name);
    return at == ranges.end() ? std::nullopt : both_ends(at->second);
  }

  YearSource source_;
  Ranges phases_, kept_;
};

}  // namespace

std::size_t LineRows::row_of(std::uint32_t line) const {
  return place.find(cell_text(*fields.column(field), line))->second;
}

Result<LineRows> line_rows(const CompareRequest& request, Environment& environment, const char* field,
                           const std::vector<std::string>& always, CompareInput& input,
                           const std::vector<std::string>& more) {
  if (!request.aside.empty() || !request.groups.empty() || !request.at.empty()) {
    return fail(ErrorKind::usage, "not_for_this", "--aside, --groups and --at are for a table; this is a store",
                "--where chooses lines of a store");
  }
  const std::string by = request.rows.empty() ? field : request.rows;
  std::vector<std::string> compared{by};
  if (!request.columns.empty()) compared.push_back(request.columns);
  SHERD_TRY(const Selection selection, selection_of(request, compared));
  SHERD_TRY(Session session, open_session(environment, request.store, request.site));
  std::vector<std::string> asked = compared;
  asked.insert(asked.end(), more.begin(), more.end());
  for (std::string& name : selection.fields()) asked.push_back(std::move(name));
  SHERD_TRY(LineFields fields, LineFields::read(session, asked, always));
  SelectedLines selected = selected_lines(fields, selection, compared);
  note(selection, selected, by, input);
  LineRows out{std::move(session), by, std::move(fields), std::move(selected.lines), {}, {}};
  std::set<std::string, quantify::NaturalLess> labels;
  const Column& column = *out.fields.column(by);
  for (const std::uint32_t line : out.lines) labels.insert(cell_text(column, line));
  out.labels.assign(labels.begin(), labels.end());
  for (std::size_t i = 0; i < out.labels.size(); ++i) out.place[out.labels[i]] = i;
  input.row_field = by;
  input.column_field = request.columns;
  input.records = RecordFilter(selection.where, by, request.columns);
  input.about.rows = static_cast<std::int64_t>(out.labels.size());
  input.about.measure = "count";
  SHERD_TRY(input.provenance, out.session.provenance(environment));
  for (std::string& warning : out.session.store->warnings()) input.warnings.push_back(std::move(warning));
  input.provenance.settings["rows"] = by;
  input.provenance.settings["where"] = join(selection.where, " and ");
  return out;
}

Result<std::unique_ptr<ContextRows>> context_rows(const CompareRequest& request, Environment& environment,
                                                  const char* field, CompareInput& input, Progress& progress) {
  if (!request.rows.empty() && !is_of_contexts(request.rows)) {
    return fail(ErrorKind::usage, "bad_choice", "\"" + request.rows + "\" is no field of contexts",
                "choose context, context.phase, context.feature, context.group or context.area");
  }
  SHERD_TRY(LineRows rows, line_rows(request, environment, field, {"record", "context", "count", "weight_g"}, input));
  auto out = std::make_unique<ContextRows>(ContextRows{std::move(rows), {}, {}, {}, {}});
  SHERD_TRY(out->record, load_record(out->rows.session));
  SHERD_TRY(out->dated, date_record(out->record, {}, progress));
  const Column& record = *out->rows.fields.lines().find("record");
  const Column& context = *out->rows.fields.lines().find("context");
  const Column& count = *out->rows.fields.lines().find("count");
  for (const std::uint32_t line : out->rows.lines) {
    out->records.insert(cell_text(record, line));
    out->row_of_context.emplace(cell_text(context, line), out->rows.row_of(line));
    if (!count.is_null(line)) input.about.total += static_cast<double>(count.integer(line));
  }
  return out;
}

Result<YearSource> year_source(const std::string& word) {
  constexpr std::array<std::string_view, 4> kWords{"own", "sequence", "spot", "phase"};
  const auto at = std::ranges::find(kWords, word);
  if (at != kWords.end()) return static_cast<YearSource>(at - kWords.begin());
  return fail(ErrorKind::usage, "bad_choice", "years of a store cannot come from \"" + word + "\"",
              "choose own, sequence, spot or phase");
}

Result<std::vector<std::optional<YearRange>>> years_of_rows(const ContextRows& contexts, YearSource source,
                                                            Environment& environment) {
  Years years(contexts, source);
  if (source == YearSource::sequence) SHERD_CHECK(years.read_kept(contexts.rows.session, environment));
  std::vector<std::optional<YearRange>> out(contexts.rows.labels.size());
  for (const DatedContext& context : contexts.dated.contexts) {
    const auto row = contexts.row_of_context.find(context.context->context);
    if (row == contexts.row_of_context.end()) continue;
    const auto range = years.of(context);
    if (!range) continue;
    std::optional<YearRange>& hull = out[row->second];
    if (!hull) {
      hull = range;
    } else {
      hull->earliest = std::min(*hull->earliest, *range->earliest);
      hull->latest = std::max(*hull->latest, *range->latest);
    }
  }
  return out;
}

}  // namespace sherd::desk
