#include "desk/vessels/drawing_register.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/recording/apply_edits.h"
#include "desk/vessels/register_rows.h"
#include "model/rows.h"

namespace sherd::desk {

namespace {

struct Register {
  std::vector<PieceRecord> pieces;
  std::vector<Drawing> drawings;
  std::map<std::string, RecordLine> lines;  ///< those that drawings name without a piece
};

Result<Register> read_register(const Session& session) {
  Register out;
  SHERD_TRY(out.pieces, read_pieces(session));
  SHERD_TRY(out.drawings, read_drawings(session));
  SHERD_TRY(
      const Table lines,
      session.store->read(
          {session.site.code, Kind::sherds, {"record", "context", "fabric", "form", "vessel", "box", "bag"}, {}}));
  for (RecordLine& line : rows_from<RecordLine>(lines)) out.lines.emplace(line.record, std::move(line));
  return out;
}

DrawingRow row_of(const Drawing& drawing, const Register& all) {
  DrawingRow row;
  row.drawing = drawing.drawing;
  row.catalogue = drawing.catalogue;
  row.record = drawing.record;
  row.piece = drawing.piece;
  const RecordLine* line = nullptr;
  if (const PieceRecord* piece = piece_of(drawing, all.pieces)) {
    row.piece = piece->piece.piece;
    row.form = piece->form;
    row.rim_diameter = piece->piece.rim_diameter;
    row.rim_percent = piece->piece.rim_percent;
    row.section = !piece->sections.empty();
    if (row.record.empty()) row.record = piece->piece.record;
  }
  if (const auto found = all.lines.find(row.record); found != all.lines.end()) line = &found->second;
  if (line) {
    row.context = line->context;
    row.fabric = line->fabric;
    if (row.form.empty()) row.form = line->form;
  }
  row.reason = drawing.reason;
  row.status = drawing.status.value_or(DrawingStatus::to_draw);
  row.scale = drawing.scale;
  row.illustrator = drawing.illustrator;
  row.sent_on = drawing.sent_on;
  row.drawn_on = drawing.drawn_on;
  row.checked_by = drawing.checked_by;
  row.checked_on = drawing.checked_on;
  row.corrections = drawing.corrections;
  row.plate = drawing.plate;
  row.place = drawing.place;
  if (row.place.empty() && line && !line->box.empty())
    row.place = "box " + line->box + (line->bag.empty() ? "" : ", bag " + line->bag);
  row.caption = drawing.caption;
  return row;
}

/// What is wanting for a drawing to go on, or does not agree with another.
void add_questions(const std::vector<DrawingRow>& rows, std::vector<std::string>& out) {
  std::map<std::int64_t, std::string> numbers;
  for (const DrawingRow& row : rows) {
    if (row.status == DrawingStatus::dropped) {
      if (row.catalogue) out.push_back(row.drawing + " was dropped and still has a number; renumber closes the gap");
      continue;
    }
    if (row.catalogue) {
      const auto [same, is_new] = numbers.emplace(*row.catalogue, row.drawing);
      if (!is_new)
        out.push_back(same->second + " and " + row.drawing + " both have the number " + std::to_string(*row.catalogue));
    }
    if (row.piece.empty() && row.record.empty()) out.push_back(row.drawing + " names neither a piece nor a record");
    const bool away = row.status == DrawingStatus::sent || row.status == DrawingStatus::to_correct;
    if (away && row.illustrator.empty()) out.push_back(row.drawing + " was sent, and nobody is named who has it");
    if (row.status == DrawingStatus::to_correct && row.corrections.empty())
      out.push_back(row.drawing + " is to be corrected, and it is not said what");
    if (row.status == DrawingStatus::checked && row.checked_by.empty())
      out.push_back(row.drawing + " is checked, and it is not said by whom");
  }
}

Result<std::vector<std::size_t>> in_order(const std::vector<DrawingRow>& rows, const std::string& order) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].status != DrawingStatus::dropped) out.push_back(i);
  }
  using Text = std::string DrawingRow::*;
  static const std::map<std::string, std::vector<Text>, std::less<>> kOrders{
      {"", {}},
      {"catalogue", {}},
      {"context", {&DrawingRow::context}},
      {"fabric", {&DrawingRow::fabric, &DrawingRow::form}},
      {"form", {&DrawingRow::form, &DrawingRow::fabric}},
      {"drawing", {&DrawingRow::drawing}}};
  const auto found = kOrders.find(order);
  if (found == kOrders.end()) {
    return fail(ErrorKind::usage, "bad_word", "order is \"" + order + "\"",
                "say catalogue, context, fabric, form or drawing");
  }
  // Numbers by their size: D9 before D10.
  const auto key = [](const std::string& text) {
    const std::size_t digits = text.find_first_of("0123456789");
    std::string number = digits == std::string::npos ? "" : text.substr(digits);
    return std::tuple(text.substr(0, digits),
                      number.find_first_not_of("0123456789") == std::string::npos
                          ? std::string(12 - std::min<std::size_t>(12, number.size()), '0') + number
                          : number);
  };
  for (auto column = found->second.rbegin(); column != found->second.rend(); ++column) {
    std::ranges::stable_sort(out, {}, [&](std::size_t i) { return key(rows[i].**column); });
  }
  return out;
}

}  // namespace

Result<DrawingsResponse> list_drawings(const DrawingsRequest& request, Environment& environment, Progress&) {
  std::optional<DrawingStatus> only;
  if (!request.status.empty()) {
    only = from_word<DrawingStatus>(request.status);
    if (!only) {
      const auto& names = Words<DrawingStatus>::kNames;
      return fail(ErrorKind::usage, "unknown_word", "no drawing can be \"" + request.status + "\"",
                  "say " + join(std::vector<std::string>(names.begin(), names.end()), ", "));
    }
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const Register all, read_register(session));
  DrawingsResponse response;
  std::map<DrawingStatus, std::int64_t> counts;
  for (const Drawing& drawing : all.drawings) response.rows.push_back(row_of(drawing, all));
  add_questions(response.rows, response.questions);
  for (const DrawingRow& row : response.rows) ++counts[*row.status];
  for (const auto& [status, n] : counts) response.counts.push_back({std::string(word(status)), n});
  if (only) std::erase_if(response.rows, [&](const DrawingRow& row) { return row.status != only; });
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

Result<RenumberResponse> renumber_drawings(const RenumberRequest& request, Environment& environment, Progress&) {
  const std::int64_t first = request.first.value_or(1);
  if (first < 1 || first > 1000000)
    return fail(ErrorKind::usage, "bad_number", "a catalogue does not begin at " + std::to_string(first),
                "say 1 or more");
  RenumberResponse response;
  EditsRequest edits;
  {
    SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
    SHERD_TRY(const Register all, read_register(session));
    std::vector<DrawingRow> rows;
    for (const Drawing& drawing : all.drawings) rows.push_back(row_of(drawing, all));
    SHERD_TRY(const std::vector<std::size_t> order, in_order(rows, request.by));
    std::vector<std::optional<std::int64_t>> now(rows.size());
    for (std::size_t k = 0; k < order.size(); ++k) now[order[k]] = first + static_cast<std::int64_t>(k);
    for (std::size_t i = 0; i < rows.size(); ++i) {
      if (now[i] == rows[i].catalogue) continue;
      response.renumbered.push_back({rows[i].drawing, rows[i].catalogue, now[i]});
      EditStep step;
      step.act = "set";
      step.kind = "drawings";
      step.row = rows[i].drawing;
      step.column = "catalogue";
      step.value = now[i] ? std::to_string(*now[i]) : "";
      edits.steps.push_back(std::move(step));
    }
    response.numbered = static_cast<std::int64_t>(order.size());
    SHERD_TRY(response.provenance, session.provenance(environment));
  }
  std::ranges::sort(response.renumbered, {}, [](const Renumbered& r) { return r.now.value_or(INT64_MAX); });
  if (request.dry_run || edits.steps.empty()) return response;
  edits.store = request.store;
  edits.site = request.site;
  edits.change = request.change.empty() ? environment.new_uid() : request.change;
  edits.label = "renumber drawings";
  SHERD_TRY(EditsResponse done, apply_steps(edits, true, environment));
  response.change = done.seq;
  response.errors = std::move(done.errors);
  response.warnings = std::move(done.warnings);
  return response;
}

}  // namespace sherd::desk
