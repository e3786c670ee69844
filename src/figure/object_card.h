#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "figure/sherd_picture.h"
#include "figure/vessel_drawing.h"
#include "model/year.h"

namespace sherd::figure {

struct CardPhoto {
  std::string mime, bytes;
};

/// A question and its answer in plain words.
struct CardText {
  std::string heading, text;
};

/// What stands on the card of one object. Its picture: the photograph, else the drawing, else the sherd.
struct ObjectCard {
  std::string title, kicker;  ///< "Jug"; "Medieval"
  std::optional<CardPhoto> photo;
  std::optional<VesselDrawing> drawing;
  SherdLook sherd;
  std::uint64_t seed = 0;
  std::string picture_words;    ///< under the picture: "Drawn at a third of its size"; may be ""
  YearRange years;              ///< when it was made
  std::vector<CardText> texts;  ///< in their order
  std::string caution, foot;    ///< at its foot: what to mind; site and number
  std::string record;           ///< for the mark's data set
};

/// How cards are put on paper. a6: one an A6 page; a4: one an A4 page, twice as large; sheet: four on an A4 page, to be
/// cut.
enum class CardPaper { a6, a4, sheet };

struct CardSet {
  std::vector<ObjectCard> cards;
  CardPaper paper = CardPaper::a6;
  Year now{2000};  ///< the right end of the line of years
};

/// A page each. `shortened` of the result: titles of cards whose text did not fit even in small type.
struct CardPages {
  std::vector<std::string> pages;
  std::vector<std::string> shortened;
};
CardPages object_cards(const CardSet& set);

/// The line of years alone, for a page: from the round year before the earliest of `all` to `now`.
std::string years_strip(const YearRange& years, const YearRange& all, Year now, double width_mm);

/// The picture of a card alone, as large as it is on an A6 card.
std::string card_picture(const ObjectCard& card);

}  // namespace sherd::figure
