#include "desk/vessels/illustrator_brief.h"

#include <algorithm>
#include <map>

#include "base/base64.h"
#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/brief_facts.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/register_rows.h"
#include "figure/brief_sheet.h"
#include "figure/render.h"
#include "model/rows.h"
#include "report/document.h"

namespace sherd::desk {

namespace {

struct Brief {
  Drawing drawing;
  BriefFacts facts;
  std::optional<figure::VesselDrawing> sketch;
  figure::DrawingSettings settings;
};

class Briefs {
 public:
  Briefs(const BriefWish& request, const LookSettings& look) : request_(request), look_(look) {}

  Result<std::vector<Brief>> read(const Session& session) {
    SHERD_TRY(const std::vector<PieceRecord> pieces, read_pieces(session));
    SHERD_TRY(const std::vector<Drawing> drawings, read_drawings(session));
    SHERD_TRY(const Table table, session.store->read({session.site.code, Kind::sherds, {}, {}}));
    std::map<std::string, RecordLine> lines;
    for (RecordLine& line : rows_from<RecordLine>(table)) lines.emplace(line.record, std::move(line));
    SHERD_CHECK(all_known(request_.only, drawings));
    std::vector<Brief> out;
    for (const Drawing& drawing : drawings) {
      if (is_asked(drawing)) out.push_back(brief(drawing, pieces, lines));
    }
    if (!out.empty()) return out;
    return fail("nothing_to_draw", "no drawing of the register is to be drawn or corrected",
                "name drawings with --only, or add some: sherdwright add STORE drawings drawing=D1 piece=...");
  }

 private:
  bool is_asked(const Drawing& drawing) const {
    if (!request_.only.empty()) return std::ranges::find(request_.only, drawing.drawing) != request_.only.end();
    const DrawingStatus status = drawing.status.value_or(DrawingStatus::to_draw);
    return status == DrawingStatus::to_draw || status == DrawingStatus::to_correct;
  }
  Brief brief(const Drawing& drawing, const std::vector<PieceRecord>& pieces,
              const std::map<std::string, RecordLine>& lines) const {
    Brief out{drawing, {}, {}, look_.drawing};
    if (request_.scale.empty() && !drawing.scale.empty()) {
      if (const auto own = read_scale(drawing.scale)) out.settings.scale = *own;
    }
    const PieceRecord* piece = piece_of(drawing, pieces);
    std::string record = drawing.record;
    if (record.empty() && piece) record = piece->piece.record;
    const auto found = lines.find(record);
    const RecordLine* line = found == lines.end() ? nullptr : &found->second;
    out.facts = brief_facts(drawing, piece, line, out.settings.scale);
    if (piece && !piece->sections.empty()) {
      const std::string number = drawing.catalogue ? std::to_string(*drawing.catalogue) : drawing.drawing;
      out.sketch = draw_piece(*piece, number, look_).drawing;
    }
    return out;
  }

  const BriefWish& request_;
  const LookSettings& look_;
};

report::Section section_of(const Brief& brief) {
  report::Section section;
  section.id = "drawing-" + brief.drawing.drawing;
  section.title = brief.facts.title;
  section.blocks.push_back(report::Paragraph{brief.facts.subtitle, false});
  report::DocumentTable table;
  table.caption = "What the record says";
  table.columns = {{"Of what", false}, {"Value", false}};
  for (const auto& [label, value] : brief.facts.facts)
    table.rows.push_back({label, value.empty() ? "not recorded" : value});
  section.blocks.push_back(std::move(table));
  if (!brief.facts.asked.empty()) section.blocks.push_back(report::BulletList{brief.facts.asked});
  if (brief.sketch) {
    section.blocks.push_back(report::DocumentFigure{"Sketch from the measured section",
                                                    figure::vessel_drawing(*brief.sketch, brief.settings)});
  }
  return section;
}

std::string html_of(const std::vector<Brief>& briefs, const Session& session, const Provenance& provenance) {
  report::Document document;
  document.title = session.site.title.empty() ? session.site.code : session.site.title;
  document.subtitle = "Drawings: a brief for the illustrator";
  document.facts = {{"Site", session.site.code},
                    {"Drawings", std::to_string(briefs.size())},
                    {"Rests on", "record " + provenance.inputs.front()}};
  for (const Brief& brief : briefs) document.sections.push_back(section_of(brief));
  return report::document_html(document);
}

Result<std::string> pdf_of(const std::vector<Brief>& briefs, const Session& session, const Provenance& provenance) {
  std::vector<std::string> sheets;
  for (const Brief& brief : briefs) {
    figure::BriefSheet sheet;
    sheet.title = brief.facts.title;
    sheet.subtitle = brief.facts.subtitle;
    sheet.facts = brief.facts.facts;
    sheet.asked = brief.facts.asked;
    sheet.sketch = brief.sketch;
    sheet.settings = brief.settings;
    sheet.foot = session.site.code + (session.site.title.empty() ? "" : ", " + session.site.title) + "; record " +
                 provenance.inputs.front() + ", Sherdwright " + provenance.version;
    sheets.push_back(figure::brief_sheet(sheet));
  }
  return figure::to_pdf_pages(sheets, {"Drawings: a brief for the illustrator"});
}

struct Written {
  BriefResponse response;
  std::string bytes;
};

Result<Written> written(const BriefWish& wish, bool html, Environment& environment) {
  SHERD_TRY(const LookSettings look, look_settings(wish));
  SHERD_TRY(const Session session, open_session(environment, wish.store, wish.site));
  SHERD_TRY(const std::vector<Brief> briefs, Briefs(wish, look).read(session));
  Written out;
  SHERD_TRY(out.response.provenance, session.provenance(environment));
  if (html) {
    out.bytes = html_of(briefs, session, out.response.provenance);
  } else {
    SHERD_TRY(out.bytes, pdf_of(briefs, session, out.response.provenance));
  }
  for (const Brief& brief : briefs) {
    out.response.drawings.push_back(brief.drawing.drawing);
    out.response.missing.insert(out.response.missing.end(), brief.facts.missing.begin(), brief.facts.missing.end());
  }
  out.response.warnings = session.store->warnings();
  return out;
}

}  // namespace

Result<BriefResponse> write_brief(const BriefRequest& request, Environment& environment, Progress&) {
  const bool html = lower(request.out).ends_with(".html");
  if (!html && !lower(request.out).ends_with(".pdf")) {
    return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that a brief can have",
                "end it in .html or .pdf");
  }
  SHERD_TRY(Written brief, written(request, html, environment));
  SHERD_CHECK(environment.files->write(request.out, brief.bytes));
  brief.response.file = request.out;
  return std::move(brief.response);
}

Result<BriefResponse> give_brief(const BriefsRequest& request, Environment& environment, Progress&) {
  const bool html = request.give == "html";
  if (!html && !request.give.empty() && request.give != "pdf") {
    return fail(ErrorKind::usage, "unknown_format", "no brief of the kind \"" + request.give + "\" can be given",
                "choose pdf or html");
  }
  SHERD_TRY(Written brief, written(request, html, environment));
  brief.response.documents.push_back(
      {html ? "brief.html" : "brief.pdf", html ? "text/html" : "application/pdf", base64(brief.bytes)});
  return std::move(brief.response);
}

}  // namespace sherd::desk
