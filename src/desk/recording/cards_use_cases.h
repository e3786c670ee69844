#pragma once

#include "desk/recording/print_cards.h"
#include "desk/use_case.h"

namespace sherd::desk {

/// What is recorded on before a machine is at hand.
template <class Visit>
void for_each_cards_use_case(Visit& visit) {
  visit(UseCase<CardsRequest, CardsResponse>{"cards", "POST", "", "prints cards to record on by hand", print_cards});
}

}  // namespace sherd::desk
