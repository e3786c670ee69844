#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "desk/public/pick_list.h"
#include "methods/prose/readability.h"

namespace sherd::desk {

struct CardsRequest : PickWish {
  std::string store, out, size, title, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &CardsRequest::store, argument("the store"));
    v.field("out", &CardsRequest::out,
            required_option(
                "the file to write: .pdf, .svg or .png with cards; .html, pages for a screen, a display or a school"));
    pick_fields<V, CardsRequest>(v);
    v.field("size", &CardsRequest::size,
            option("A6 (unless said), a card a page; A4, the same twice as large; sheet, four A6 on A4, to be cut"));
    v.field("title", &CardsRequest::title, option("of the pages; the site's own unless said"));
    v.field("site", &CardsRequest::site, option("the site, where the store holds several"));
  }
};

/// How hard the text of one card is to read.
struct CardReading {
  std::string record, title;
  prose::Readability reading;
  bool too_hard = false;  ///< above the seventh grade

  template <class V>
  static void fields(V& v) {
    v.field("record", &CardReading::record);
    v.field("title", &CardReading::title);
    v.field("reading", &CardReading::reading);
    v.field("too_hard", &CardReading::too_hard);
  }
};

struct CardsResponse : Reply {
  std::vector<std::string> files;
  std::vector<PublicObject> objects;
  std::vector<PickLeftOut> left_out;
  prose::Readability reading;          ///< of all texts together
  std::vector<CardReading> readings;   ///< one an object
  std::vector<std::string> shortened;  ///< cards whose text did not fit

  template <class V>
  static void fields(V& v) {
    v.field("files", &CardsResponse::files);
    v.field("objects", &CardsResponse::objects);
    v.field("left_out", &CardsResponse::left_out);
    v.field("reading", &CardsResponse::reading);
    v.field("readings", &CardsResponse::readings);
    v.field("shortened", &CardsResponse::shortened);
  }
};

/// Cards, or a set of pages, of objects as `pick-list` picks them, and how hard their texts are to read. Errors: those
/// of `pick-list`; `unknown_size`, `unknown_format`; those of pictures and files.
Result<CardsResponse> write_cards(const CardsRequest& request, Environment& environment, Progress& progress);

/// The same for a page.
struct ObjectCardsRequest : PickWish {
  static constexpr bool kPageOnly = true;
  std::string store, size, title, site;
  bool pages = false;

  template <class V>
  static void fields(V& v) {
    v.field("store", &ObjectCardsRequest::store, argument("the store"));
    pick_fields<V, ObjectCardsRequest>(v);
    v.field("size", &ObjectCardsRequest::size, option("A6, A4 or sheet"));
    v.field("title", &ObjectCardsRequest::title, option("of the pages"));
    v.field("pages", &ObjectCardsRequest::pages, option("the HTML of the pages instead of cards"));
    v.field("site", &ObjectCardsRequest::site, option("the site, where the store holds several"));
  }
};

struct ObjectCardsResponse : CardsResponse {
  std::vector<std::string> pictures;  ///< a page each, as SVG
  std::string html;                   ///< where pages were asked for

  template <class V>
  static void fields(V& v) {
    CardsResponse::fields(v);
    v.field("pictures", &ObjectCardsResponse::pictures);
    v.field("html", &ObjectCardsResponse::html);
  }
};

/// Errors as of `cards`.
Result<ObjectCardsResponse> show_cards(const ObjectCardsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
