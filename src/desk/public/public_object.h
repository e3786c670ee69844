#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "model/words.h"
#include "model/year.h"

namespace sherd::desk {

/// How much a piece bears. robust: may be passed round; careful: to be held over a table by one after another; fragile:
/// to be looked at.
enum class Sturdiness { robust, careful, fragile };

}  // namespace sherd::desk

namespace sherd {
template <>
struct Words<desk::Sturdiness> {
  static constexpr std::array<std::string_view, 3> kNames{"robust", "careful", "fragile"};
};
}  // namespace sherd

namespace sherd::desk {

struct PublicCaution {
  std::string caution, text;

  template <class V>
  static void fields(V& v) {
    v.field("caution", &PublicCaution::caution);
    v.field("text", &PublicCaution::text);
  }
};

/// One line of the record as the public meets it.
struct PublicObject {
  std::string record, context, fabric, form, part, decoration;
  std::string title;                   ///< "Cooking pot"
  std::vector<std::string> what;       ///< sentences in plain words
  std::string when;                    ///< "Made between 1180 and 1350."
  std::vector<std::string> how_known;  ///< sentences: the reasons
  std::string found;                   ///< "Found in the cess pit, in layer 1026."
  std::vector<std::string> periods;    ///< names, from the earliest on
  std::optional<Year> earliest, latest;
  std::vector<std::string> themes;
  Sturdiness sturdiness = Sturdiness::careful;
  std::vector<std::string> because;  ///< why it is so sturdy
  std::vector<PublicCaution> cautions;
  std::string tray, bag, box;
  std::string away;  ///< where it is instead of in its bag; "" where it is there
  std::optional<std::int64_t> count;
  std::optional<double> weight_g;
  std::string piece, photo;  ///< what there is to show it by: a drawn section, a photograph's document
  bool to_check = false;     ///< no one has checked the line yet
  double worth = 0;          ///< how much there is to show, for the order of a pick list

  template <class V>
  static void fields(V& v) {
    v.field("record", &PublicObject::record);
    v.field("context", &PublicObject::context);
    v.field("fabric", &PublicObject::fabric);
    v.field("form", &PublicObject::form);
    v.field("part", &PublicObject::part);
    v.field("decoration", &PublicObject::decoration);
    v.field("title", &PublicObject::title);
    v.field("what", &PublicObject::what);
    v.field("when", &PublicObject::when);
    v.field("how_known", &PublicObject::how_known);
    v.field("found", &PublicObject::found);
    v.field("periods", &PublicObject::periods);
    v.field("earliest", &PublicObject::earliest);
    v.field("latest", &PublicObject::latest);
    v.field("themes", &PublicObject::themes);
    v.field("sturdiness", &PublicObject::sturdiness);
    v.field("because", &PublicObject::because);
    v.field("cautions", &PublicObject::cautions);
    v.field("tray", &PublicObject::tray);
    v.field("bag", &PublicObject::bag);
    v.field("box", &PublicObject::box);
    v.field("away", &PublicObject::away);
    v.field("count", &PublicObject::count);
    v.field("weight_g", &PublicObject::weight_g);
    v.field("piece", &PublicObject::piece);
    v.field("photo", &PublicObject::photo);
    v.field("to_check", &PublicObject::to_check);
    v.field("worth", &PublicObject::worth);
  }

  bool has(std::string_view caution) const {
    for (const PublicCaution& one : cautions) {
      if (one.caution == caution) return true;
    }
    return false;
  }
};

/// All that is said of it, for measuring how hard it is to read.
std::string words_of(const PublicObject& object);

}  // namespace sherd::desk
