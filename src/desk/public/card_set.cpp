#include "desk/public/card_set.h"

#include <algorithm>
#include <map>

#include "base/base64.h"
#include "base/numbers.h"
#include "base/text.h"
#include "desk/public/fabric_look.h"
#include "desk/vessels/drawn_piece.h"
#include "reference/glossary.h"

namespace sherd::desk {

namespace {

std::uint64_t seed_of(const std::string& text) {
  std::uint64_t seed = 1469598103934665603ULL;  // FNV-1a, Fowler, Noll & Vo
  for (const char c : text) seed = (seed ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return seed;
}

std::string spoken(const std::vector<std::string>& sentences) { return join(sentences, " "); }

std::string cautions_text(const PublicObject& object) {
  std::string out;
  for (const PublicCaution& one : object.cautions) {
    if (one.caution == "food" && object.part != "profile" && object.part != "whole") continue;
    out += (out.empty() ? "" : " ") + one.text;
  }
  return out;
}

std::string kicker_of(const PublicObject& object) {
  std::string out = join(object.periods, " or ");
  const std::string years = object.earliest || object.latest ? range_text({object.earliest, object.latest}) : "";
  if (!years.empty()) out += (out.empty() ? "" : ", ") + years;
  return out.empty() ? "Not dated" : out;
}

std::vector<figure::CardText> texts_of_card(const PublicObject& object) {
  std::vector<figure::CardText> out{{"What is it?", spoken(object.what)}, {"When was it made?", object.when}};
  if (!object.how_known.empty()) out.push_back({"How do we know?", spoken(object.how_known)});
  out.push_back({"Where was it found?", object.found});
  return out;
}

bool can_be_drawn_in(const std::string& mime) { return mime == "image/png" || mime == "image/jpeg"; }

YearRange all_years(const std::vector<PublicObject>& objects) {
  YearRange all;
  for (const PublicObject& object : objects) {
    const auto& from = object.earliest ? object.earliest : object.latest;
    if (from && (!all.earliest || *from < *all.earliest)) all.earliest = from;
  }
  return all;
}

std::string grade_text(double grade) { return format_fixed(grade, 1); }

}  // namespace

Result<figure::ObjectCard> card_of(const PublicObject& object, const PublicRecord& record, const Session& session) {
  figure::ObjectCard card;
  card.title = object.title;
  card.kicker = kicker_of(object);
  card.record = object.record;
  card.seed = seed_of(object.record);
  card.years = {object.earliest, object.latest};
  card.texts = texts_of_card(object);
  card.caution = cautions_text(object);
  card.foot = record.site().code + ", record " + object.record + ", context " + object.context;
  if (!object.photo.empty()) {
    SHERD_TRY(auto photo, session.store->document(session.site.code, object.photo));
    if (photo && can_be_drawn_in(photo->mime)) card.photo = figure::CardPhoto{photo->mime, std::move(photo->bytes)};
  }
  if (const PieceRecord* piece = record.piece(object.piece)) {
    LookSettings look;
    look.drawing.flat_tint = true;
    card.drawing = draw_piece(*piece, "", look).drawing;
    card.picture_words = "Left, the pot as if it were cut in half; right, its outside.";
  } else if (const Fabric* fabric = record.fabric(object.fabric)) {
    card.sherd = fabric_look(*fabric, record.inclusions(), object.decoration).look;
    card.picture_words = "A piece of this ware, and its break under a lens. Not this very piece.";
  }
  if (card.photo) card.picture_words.clear();
  return card;
}

void measure(CardsResponse& response) {
  std::string all;
  for (const PublicObject& object : response.objects) {
    const std::string text = words_of(object);
    all += text + "\n\n";
    CardReading one{object.record, object.title, prose::readability(text), false};
    one.too_hard = one.reading.grade > prose::kGradeAtTwelve;
    if (one.too_hard)
      response.warnings.push_back("record " + object.record + " reads at grade " + grade_text(one.reading.grade) +
                                  ", above the 7th of a child of twelve");
    response.readings.push_back(std::move(one));
  }
  response.reading = prose::readability(all);
}

report::PublicPages pages_of(const std::vector<PublicObject>& objects, const std::vector<figure::ObjectCard>& cards,
                             const PublicRecord& record, const CardsResponse& response, const std::string& title,
                             bool small) {
  report::PublicPages pages;
  const Site& site = record.site();
  pages.title = !title.empty() ? title : site.title.empty() ? site.code : site.title;
  pages.lead = counted(std::ssize(objects), "piece") + " of pottery from " +
               (site.title.empty() ? site.code : site.title) + ": what each is, when it was made, and how we know.";
  pages.small_paper = small;
  const YearRange all = all_years(objects);
  std::string texts;
  std::map<std::string, std::string> mind;
  for (std::size_t i = 0; i < objects.size(); ++i) {
    const PublicObject& object = objects[i];
    const figure::ObjectCard& card = cards[i];
    report::PageObject page{"object-" + object.record,
                            card.title,
                            card.kicker,
                            figure::card_picture(card),
                            "",
                            figure::years_strip(card.years, all, record.now(), 160),
                            {},
                            card.caution,
                            card.foot};
    if (card.photo) page.photo = "data:" + card.photo->mime + ";base64," + base64(card.photo->bytes);
    for (const figure::CardText& text : card.texts) {
      page.texts.emplace_back(text.heading, text.text);
      texts += text.text + " ";
    }
    for (const PublicCaution& one : object.cautions) mind.emplace(one.caution, one.text);
    pages.objects.push_back(std::move(page));
  }
  std::vector<report::PageTerm> terms;
  for (const reference::GlossaryTerm& term : reference::glossary()) terms.push_back({term.term, term.meaning});
  pages.terms = report::terms_in(texts, terms);
  for (const auto& [caution, text] : mind) pages.mind.push_back(text);
  pages.about = {
      "These texts read at grade " + grade_text(response.reading.grade) + " of the Flesch-Kincaid scale and " +
          grade_text(response.reading.letter_grade) +
          " of the Coleman-Liau index: a child of twelve is in the 6th or 7th.",
      "They were made from the record of the site, " + response.provenance.inputs.front() + ".",
      "Years are those of making, by the record's own tables of wares. The drawings are made from measured sections."};
  return pages;
}

}  // namespace sherd::desk
