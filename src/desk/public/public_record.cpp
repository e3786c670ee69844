#include "desk/public/public_record.h"

#include <algorithm>
#include <charconv>

#include "base/text.h"
#include "desk/archive/list_loans.h"
#include "desk/archive/reconcile_selection.h"
#include "desk/public/object_words.h"
#include "desk/public/sturdiness.h"
#include "model/rows.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

// How much there is to show: ours, no source.
constexpr double kMarkWorth = 4, kDecorationWorth = 3, kDrawingWorth = 4, kPhotoWorth = 4, kProfileWorth = 3,
                 kPartWorth = 2, kFormWorth = 2, kUseWorth = 1, kDatedWorth = 2, kUncheckedWorth = -1,
                 kNotesWorth = 0.5;

std::optional<Year> year_of_time(const std::string& now) {
  int year = 0;
  if (now.size() < 4) return std::nullopt;
  std::from_chars(now.data(), now.data() + 4, year);
  return year > 0 ? std::optional(Year{year}) : std::nullopt;
}

template <class T>
Result<std::vector<T>> rows_of(const Session& session, Kind kind) {
  SHERD_TRY(const Table table, session.store->read({session.site.code, kind, {}, {}}));
  return rows_from<T>(table);
}

std::vector<std::string> periods_of(const YearRange& years) {
  std::vector<std::string> out;
  if (years.empty()) return out;
  for (const PeriodRow& row : reference::periods().rows) {
    if (row.kind != PeriodKind::period || row.authority != "pas") continue;
    const bool part = row.name.starts_with("Early ") || row.name.starts_with("Middle ") ||
                      row.name.starts_with("Late ") || row.name.find(':') != std::string::npos;
    if (part && row.name != "Early medieval") continue;
    const bool before = years.latest && row.earliest && *years.latest < *row.earliest;
    const bool after = years.earliest && row.latest && *row.latest < *years.earliest;
    if (!before && !after) out.push_back(row.name);
  }
  return out;
}

double worth_of(const PublicObject& object, const RecordLine& line) {
  double out = 0;
  out += line.mark.empty() ? 0 : kMarkWorth;
  out += line.decoration.empty() ? 0 : kDecorationWorth;
  out += object.piece.empty() ? 0 : kDrawingWorth;
  out += object.photo.empty() ? 0 : kPhotoWorth;
  const std::string part = lower(line.part);
  out += part == "profile" || part == "whole" ? kProfileWorth : part.empty() || part == "body" ? 0 : kPartWorth;
  out += line.form.empty() ? 0 : kFormWorth;
  out += line.use_traces.empty() ? 0 : kUseWorth;
  out += object.earliest && object.latest ? kDatedWorth : 0;
  out += object.to_check ? kUncheckedWorth : 0;
  out += line.notes.empty() ? 0 : kNotesWorth;
  return out;
}

}  // namespace

Result<std::unique_ptr<PublicRecord>> PublicRecord::read(const Session& session, const Environment& environment,
                                                         Progress& progress) {
  std::unique_ptr<PublicRecord> out(new PublicRecord(session.site));
  out->now_ = year_of_time(environment.now()).value_or(Year{2000});
  SHERD_TRY(out->record_, load_record(session));
  SHERD_TRY(out->dated_, date_record(out->record_, {}, progress));
  SHERD_TRY(out->pieces_, read_pieces(session));
  SHERD_CHECK(out->read_rows(session));
  return out;
}

Result<void> PublicRecord::read_rows(const Session& session) {
  SHERD_TRY(inclusions_, rows_of<Inclusion>(session, Kind::inclusions));
  for (std::size_t i = 0; i < record_.lines.size(); ++i) lines_.emplace(record_.lines[i].record, i);
  for (std::size_t i = 0; i < record_.fabrics.size(); ++i) fabrics_.emplace(record_.fabrics[i].fabric, i);
  for (std::size_t i = 0; i < record_.forms.size(); ++i) forms_.emplace(record_.forms[i].form, i);
  for (std::size_t i = 0; i < record_.contexts.size(); ++i) contexts_.emplace(record_.contexts[i].context, i);
  for (const PieceRecord& piece : pieces_) {
    if (!piece.sections.empty() && piece.line) pieces_of_.emplace(piece.line->record, piece.piece.piece);
  }
  SHERD_TRY(const auto trays, rows_of<TrayLine>(session, Kind::trays));
  for (const TrayLine& tray : trays) {
    if (tray.settled_by.empty()) trays_.emplace(tray.record, tray.tray);
  }
  SHERD_TRY(const auto bags, rows_of<Bag>(session, Kind::bags));
  for (const Bag& bag : bags) bags_.emplace(bag.bag, bag);
  SHERD_TRY(const auto pictures, rows_of<Picture>(session, Kind::pictures));
  for (const Picture& picture : pictures) {
    const std::string& file = picture.small_file.empty() ? picture.file : picture.small_file;
    if (!picture.record.empty() && !file.empty()) photos_.emplace(picture.record, file);
  }
  SHERD_TRY(const auto loans, all_loans(session, {}));
  for (const LoanEntry& loan : loans) {
    if (loan.standing == Return::back) continue;
    std::string where = loan.standing == Return::used_up ? "used up" : loan.standing == Return::lost ? "lost" : "out";
    if (!loan.holder.empty()) where += ": " + loan.holder + (loan.place.empty() ? "" : ", " + loan.place);
    const bool some_left = loan.count && loan.of && *loan.count < *loan.of;
    if (!some_left) away_.emplace(loan.record, where);
  }
  SHERD_TRY(const Reconciled selection, reconcile(session));
  for (const auto& [record, kept] : selection.lines) {
    if (kept.kept == 0 && kept.deselected > 0) away_[record] = "not kept";
  }
  return {};
}

std::size_t PublicRecord::line_of(const std::string& record) const {
  const auto found = lines_.find(record);
  return found == lines_.end() ? std::string::npos : found->second;
}

const PieceRecord* PublicRecord::piece(const std::string& name) const {
  const auto found = std::ranges::find_if(pieces_, [&](const PieceRecord& one) { return one.piece.piece == name; });
  return found == pieces_.end() || found->sections.empty() ? nullptr : &*found;
}

const PieceRecord* PublicRecord::typical_piece(const std::string& fabric) const {
  const PieceRecord* best = nullptr;
  for (const PieceRecord& one : pieces_) {
    if (one.sections.empty() || !one.line || one.line->fabric != fabric) continue;
    const bool whole = one.piece.part == "profile";
    if (!best || (whole && best->piece.part != "profile")) best = &one;
  }
  return best;
}

const Fabric* PublicRecord::fabric(const std::string& code) const {
  const auto found = fabrics_.find(code);
  return found == fabrics_.end() ? nullptr : &record_.fabrics[found->second];
}

const Form* PublicRecord::form(const std::string& code) const {
  const auto found = forms_.find(code);
  return found == forms_.end() ? nullptr : &record_.forms[found->second];
}

void PublicRecord::say_what(PublicObject& object, const RecordLine& line) const {
  const Fabric* its_fabric = fabric(line.fabric);
  const Form* its_form = form(line.form);
  object.title = object_title(line, its_form);
  object.what.push_back(part_sentence(line, its_form));
  for (std::string& sentence : look_sentences(line, its_fabric)) object.what.push_back(std::move(sentence));
  const auto bag = bags_.find(line.bag);
  const auto place = contexts_.find(line.context);
  const Context* context = place == contexts_.end() ? nullptr : &record_.contexts[place->second];
  const ObjectTexts texts = texts_of(line, its_fabric, its_form, context, bag == bags_.end() ? nullptr : &bag->second);
  object.themes = themes_of(texts);
  object.cautions = cautions_of(texts);
  object.sturdiness = sturdiness_of(line, its_fabric, object.because);
  std::string phase;
  if (context && !context->phase.empty()) {
    for (const Phase& one : record_.phases) {
      if (one.phase == context->phase) phase = one.title;
    }
  }
  object.found = found_sentence(line, context, phase);
}

void PublicRecord::say_when(PublicObject& object, const RecordLine& line, std::size_t at) const {
  const dating::LineDate& date = dated_.line_dates[at];
  const DatedContext* context = dated_.find(line.context);
  object.earliest = date.earliest;
  object.latest = date.latest;
  object.periods = periods_of(date.range());
  object.how_known = reasons(line, fabric(line.fabric), date, context);
  if (!date.dated()) {
    object.when = "We do not know when it was made.";
    return;
  }
  const std::string ago = years_ago(date.range(), now_);
  object.when = as_sentence("Made " + plain_years(date.range()) + (ago.empty() ? "" : ", " + ago));
}

void PublicRecord::say_where(PublicObject& object, const RecordLine& line) const {
  const auto tray = trays_.find(line.record);
  if (tray != trays_.end()) object.tray = tray->second;
  object.bag = line.bag;
  object.box = line.box;
  const auto bag = bags_.find(line.bag);
  if (object.box.empty() && bag != bags_.end()) object.box = bag->second.box;
  const auto away = away_.find(line.record);
  if (away != away_.end()) object.away = away->second;
  const auto photo = photos_.find(line.record);
  if (photo != photos_.end()) object.photo = photo->second;
  const auto piece = pieces_of_.find(line.record);
  if (piece != pieces_of_.end()) object.piece = piece->second;
}

PublicObject PublicRecord::object(std::size_t at) const {
  const RecordLine& line = record_.lines[at];
  PublicObject out;
  out.record = line.record;
  out.context = line.context;
  out.fabric = line.fabric;
  out.form = line.form;
  out.part = line.part;
  out.decoration = line.decoration;
  out.count = line.count;
  if (line.weight) out.weight_g = line.weight->g();
  out.to_check = line.checked_by.empty();
  say_what(out, line);
  say_when(out, line, at);
  say_where(out, line);
  out.worth = worth_of(out, line);
  return out;
}

}  // namespace sherd::desk
