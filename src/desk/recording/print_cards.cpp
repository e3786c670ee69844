#include "desk/recording/print_cards.h"

#include <utility>

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/vessels/picture_files.h"
#include "figure/recording_card.h"

namespace sherd::desk {

namespace {

using figure::CardBlank;
using figure::CardColumn;
using figure::RecordingCard;

constexpr std::string_view kBlankIsNotNought = "A blank was not recorded; a nought is a nought. Write in pencil.";
constexpr std::string_view kDoubt = "? behind a code: probable, ??: possible.";

/// The two blanks with which every card ends its head.
std::vector<CardBlank> with_people(std::vector<CardBlank> row) {
  row.push_back({"recorder", 0.8});
  row.push_back({"date", 0.8});
  row.push_back({"sheet of", 0.6});
  row.push_back({"typed in", 0.7});
  return row;
}

RecordingCard lines_card(const std::string& context) {
  return {
      .title = "Pottery, line by line",
      .head = {with_people({{"context", 1, context}, {"bag", 0.7}, {"box", 0.6}, {"hand, sieved or sample no", 1.2}})},
      .columns = {{"fabric", "? if in doubt", 1.6},
                  {"form", "? if in doubt", 1.4},
                  {"part", "rim, base ...", 1.1},
                  {"decoration", "", 1.4},
                  {"count", "sherds", 0.9},
                  {"weight", "g", 0.9},
                  {"vessels", "at least", 0.8},
                  {"rims", "no", 0.6},
                  {"rim", "mm", 0.8},
                  {"rim", "%", 0.7},
                  {"base", "mm", 0.8},
                  {"condition", "wear; sooted ...", 1.5},
                  {"mark, note, join", "", 2.6}},
      .foot = {"One line a combination of fabric, form, part, decoration and condition. " + std::string(kDoubt) +
               " Vessels 0: counted on another line. " + std::string(kBlankIsNotNought)}};
}

RecordingCard scan_card(const std::string& context) {
  return {.title = "Pottery, scan",
          .head = {with_people({{"boxes", 1}, {"area, feature", 1.5}})},
          .columns = {{"context", context.empty() ? "" : context + " ...", 0.8},
                      {"bags", "", 0.7},
                      {"wares", "each with S, M, L or a count", 4},
                      {"all", "S M L", 0.5},
                      {"count", "sherds", 0.6},
                      {"weight", "g", 0.6},
                      {"earliest", "", 0.7},
                      {"latest", "", 0.7},
                      {"comment", "joins, residual, worth more?", 2.4}},
          .foot = {"One line a context. Say of each ware S (a few), M, L (many) or how many, as in: grey-1 M; shell-3 "
                   "12. " +
                   std::string(kBlankIsNotNought)}};
}

RecordingCard rims_card(const std::string& context) {
  return {.title = "Rims and bases",
          .head = {with_people({{"context", 1, context}, {"chart or gauge", 1}})},
          .columns = {{"record", "or bag", 0.9},
                      {"fabric", "", 1.1},
                      {"form", "", 1.1},
                      {"rim, base", "R B", 0.6},
                      {"diameter", "mm", 0.8},
                      {"circle", "%", 0.6},
                      {"chord", "mm", 0.7},
                      {"sagitta", "mm", 0.7},
                      {"certainty", "", 0.8},
                      {"vessel", "", 0.7}},
          .foot = {"Diameter and percent from the chart; or chord and sagitta (the height of the arc over the chord), "
                   "to 0.1 mm. Below 5 % the diameter is a class: write from-to. The percent still counts.",
                   std::string(kBlankIsNotNought)}};
}

RecordingCard fabric_card() {
  return {
      .title = "Fabric under the lens",
      .head = {with_people({{"fabric", 1}, {"name", 1.6}}),
               {{"hardness", 1}, {"feel", 1}, {"fracture", 1}, {"made: hand, wheel", 1}},
               {{"outside: colour", 1}, {"core: colour", 1}, {"inside: colour", 1}, {"firing", 1}},
               {{"sherds looked at: record, context, where they are kept", 3}, {"lens", 0.6}}},
      .columns = {{"inclusion", "what", 1.6},
                  {"frequency", "chart?", 1.1},
                  {"size", "mm", 0.8},
                  {"sorting", "", 0.9},
                  {"rounding", "", 0.9},
                  {"colour", "", 0.9},
                  {"note", "", 1.6}},
      .foot = {"A fresh break, good light. Name the chart by which frequency, sorting and rounding are told. Colours "
               "as 10YR 5/4 or in words. " +
               std::string(kBlankIsNotNought)}};
}

Result<RecordingCard> card_of(const CardsRequest& request) {
  const std::string of = lower(request.of);
  if (of == "lines") return lines_card(request.context);
  if (of == "scan") return scan_card(request.context);
  if (of == "rims") return rims_card(request.context);
  if (of == "fabric") return fabric_card();
  const std::string near = did_you_mean(of, std::vector<std::string>{"lines", "scan", "rims", "fabric"});
  return fail(ErrorKind::usage, "bad_word", "there is no card of \"" + request.of + "\"",
              near.empty() ? "say lines, scan, rims or fabric" : near);
}

/// ISO 216. Cards of lines and scans lie across, the others stand.
Result<void> set_paper(const CardsRequest& request, RecordingCard& card) {
  const std::string paper = lower(request.paper);
  if (!paper.empty() && paper != "a4" && paper != "a5")
    return fail(ErrorKind::usage, "bad_word", "paper is \"" + request.paper + "\"", "say A4 or A5");
  const bool small = paper == "a5", across = lower(request.of) == "lines" || lower(request.of) == "scan";
  const double shorter = small ? 148 : 210, longer = small ? 210 : 297;
  card.width_mm = across ? longer : shorter;
  card.height_mm = across ? shorter : longer;
  return {};
}

/// "Fabrics: grey-1, grey-2": codes that are in use.
template <class Row>
std::string codes_of(const char* what, const std::vector<Row>& rows, std::string Row::* code) {
  std::string out;
  for (const Row& row : rows) {
    if (row.status != "retired") out += (out.empty() ? "" : ", ") + row.*code;
  }
  return out.empty() ? out : what + out;
}

Result<void> add_series(const Session& session, RecordingCard& card) {
  card.site = session.site.code + (session.site.title.empty() ? "" : "  " + session.site.title);
  SHERD_TRY(const Record record, load_record(session));
  for (const std::string& codes :
       {codes_of("Fabrics: ", record.fabrics, &Fabric::fabric), codes_of("Forms: ", record.forms, &Form::form)}) {
    if (!codes.empty() && card.title != "Fabric under the lens") card.foot.push_back(codes);
  }
  return {};
}

std::string page_of(const figure::DrawnCard& drawn, const RecordingCard& card) {
  const auto mm = [](double length) { return std::to_string(static_cast<int>(length)) + "mm"; };
  return "<!doctype html>\n<html lang=\"en-GB\"><head><meta charset=\"utf-8\"><title>" + card.title +
         "</title>\n<style>@page { size: " + mm(card.width_mm) + " " + mm(card.height_mm) +
         "; margin: 0 } body { margin: 0 } svg { display: block }</style></head>\n<body>\n" + drawn.svg +
         "</body></html>\n";
}

}  // namespace

Result<CardsResponse> print_cards(const CardsRequest& request, Environment& environment, Progress&) {
  const bool html = lower(request.out).ends_with(".html");
  if (!html) SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const std::int64_t dpi, dots_per_inch(request.dpi));
  SHERD_TRY(RecordingCard card, card_of(request));
  SHERD_CHECK(set_paper(request, card));
  CardsResponse response;
  response.provenance.version = environment.version;
  if (!request.in.empty()) {
    SHERD_TRY(const Session session, open_session(environment, request.in, request.site));
    SHERD_TRY(response.provenance, session.provenance(environment));
    SHERD_CHECK(add_series(session, card));
  }
  SHERD_TRY(const figure::DrawnCard drawn, figure::recording_card(card));
  if (html) {
    SHERD_CHECK(environment.files->write(request.out, page_of(drawn, card)));
  } else {
    SHERD_CHECK(write_pictures({drawn.svg}, {request.out, card.title, dpi}, environment));
  }
  response.file = request.out;
  response.width_mm = card.width_mm;
  response.height_mm = card.height_mm;
  response.lines = drawn.lines;
  return response;
}

}  // namespace sherd::desk
