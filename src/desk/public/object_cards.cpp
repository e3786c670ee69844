#include "desk/public/object_cards.h"

#include "base/text.h"
#include "desk/frame/session.h"
#include "desk/public/card_set.h"
#include "desk/public/public_record.h"
#include "desk/vessels/picture_files.h"

namespace sherd::desk {

namespace {

Result<figure::CardPaper> paper_of(const std::string& size) {
  const std::string name = lower(trim(size));
  if (name.empty() || name == "a6") return figure::CardPaper::a6;
  if (name == "a4") return figure::CardPaper::a4;
  if (name == "sheet") return figure::CardPaper::sheet;
  return fail(ErrorKind::usage, "unknown_size", "cards come in no size \"" + size + "\"", "say A6, A4 or sheet");
}

/// What cards and pages are made of.
struct Made {
  figure::CardSet set;
  figure::CardPages pages;
  std::string html;
};

/// Fills the response; `with_html`: pages, too.
Result<Made> make(const PickWish& wish, const std::string& size, const std::string& title, const Session& session,
                  bool with_html, CardsResponse& response, Environment& environment, Progress& progress) {
  Made made;
  SHERD_TRY(made.set.paper, paper_of(size));
  SHERD_TRY(const auto record, PublicRecord::read(session, environment, progress));
  SHERD_TRY(PickListResponse list, picked(*record, wish));
  response.objects = std::move(list.objects);
  response.left_out = std::move(list.left_out);
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  measure(response);
  made.set.now = record->now();
  for (const PublicObject& object : response.objects) {
    SHERD_TRY(auto card, card_of(object, *record, session));
    made.set.cards.push_back(std::move(card));
  }
  if (with_html) {
    made.html = report::public_pages_html(pages_of(response.objects, made.set.cards, *record, response, title,
                                                   made.set.paper == figure::CardPaper::a6 && !trim(size).empty()));
    return made;
  }
  made.pages = figure::object_cards(made.set);
  response.shortened = made.pages.shortened;
  for (const std::string& one : response.shortened)
    response.warnings.push_back("the text of \"" + one + "\" is too long for its card and ends early");
  return made;
}

}  // namespace

Result<CardsResponse> write_cards(const CardsRequest& request, Environment& environment, Progress& progress) {
  const bool html = lower(request.out).ends_with(".html");
  if (!html) {
    if (auto format = picture_format(request.out); !format) {
      return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that cards can have",
                  "end it in .pdf, .svg, .png or .html");
    }
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  CardsResponse response;
  SHERD_TRY(const Made made,
            make(request, request.size, request.title, session, html, response, environment, progress));
  if (html) {
    SHERD_CHECK(environment.files->write(request.out, made.html));
    response.files = {request.out};
    return response;
  }
  const std::string title = !request.title.empty() ? request.title : session.site.code + ", object cards";
  SHERD_TRY(response.files, write_pictures(made.pages.pages, {request.out, title, 300}, environment));
  return response;
}

Result<ObjectCardsResponse> show_cards(const ObjectCardsRequest& request, Environment& environment,
                                       Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  ObjectCardsResponse response;
  SHERD_TRY(Made made,
            make(request, request.size, request.title, session, request.pages, response, environment, progress));
  response.pictures = std::move(made.pages.pages);
  response.html = std::move(made.html);
  return response;
}

}  // namespace sherd::desk
