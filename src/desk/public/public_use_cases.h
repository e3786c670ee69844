#pragma once

#include "desk/public/glossary.h"
#include "desk/public/key_answers.h"
#include "desk/public/object_cards.h"
#include "desk/public/pick_list.h"
#include "desk/public/volunteer_key.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// Those for the public side, in the order of the table.
template <class Visit>
void for_each_public_use_case(Visit& visit) {
  visit(UseCase<PickListRequest, PickListResponse>{"pick-list", "GET", "/api/pick-list",
                                                   "objects for a talk or a handling box, where each is, what to mind",
                                                   pick_list});
  visit(UseCase<CardsRequest, CardsResponse>{
      "cards", "POST", "", "object cards and pages for a display, an open day or a school", write_cards});
  visit(UseCase<ObjectCardsRequest, ObjectCardsResponse>{"object-cards", "GET", "/api/object-cards",
                                                         "object cards, or the pages", show_cards});
  visit(UseCase<KeyRequest, KeyResponse>{
      "volunteer-key", "POST", "", "twelve pictures by which volunteers sort, and the sheet for answers", make_key});
  visit(UseCase<ShowKeyRequest, ShowKeyResponse>{"picture-key", "GET", "/api/picture-key",
                                                 "the pictures by which volunteers sort", show_key});
  visit(UseCase<KeepKeyRequest, ShowKeyResponse>{"picture-keys", "POST", "/api/picture-keys",
                                                 "numbers and keeps the pictures by which volunteers sort", keep_key,
                                                 true});
  visit(UseCase<KeyAnswersRequest, EditsResponse>{"key-answers", "POST", "/api/key-answers",
                                                  "answers of volunteers as lines that are to be checked", take_answers,
                                                  true});
  visit(UseCase<GlossaryRequest, GlossaryResponse>{"glossary", "GET", "/api/glossary",
                                                   "terms of the trade in plain words", show_glossary});
  visit(UseCase<ReadabilityRequest, ReadabilityResponse>{"readability", "GET", "", "how hard a text is to read",
                                                         measure_text});
}

}  // namespace sherd::desk
