#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "model/quantity.h"
#include "model/words.h"

namespace sherd::desk {

struct LinksRequest {
  std::string store, record, site;

  template <class V>
  static void fields(V& v) {
    v.field("store", &LinksRequest::store, argument("the store"));
    v.field("record", &LinksRequest::record, argument("a record number: the network that it belongs to"));
    v.field("site", &LinksRequest::site, option("the site, where the store holds several"));
  }
};

/// A line of the network. `steps`: links between it and the record asked for.
struct LinkedLine {
  std::string uid, record, context, fabric, form, part, vessel;
  std::optional<std::int64_t> count, vessels;
  std::optional<Weight> weight;
  std::optional<Percent> rim_percent;
  std::int64_t steps = 0;

  template <class V>
  static void fields(V& v) {
    v.field("uid", &LinkedLine::uid);
    v.field("record", &LinkedLine::record);
    v.field("context", &LinkedLine::context);
    v.field("fabric", &LinkedLine::fabric);
    v.field("form", &LinkedLine::form);
    v.field("part", &LinkedLine::part);
    v.field("vessel", &LinkedLine::vessel);
    v.field("count", &LinkedLine::count);
    v.field("vessels", &LinkedLine::vessels);
    v.field("weight_g", &LinkedLine::weight);
    v.field("rim_percent", &LinkedLine::rim_percent);
    v.field("steps", &LinkedLine::steps);
  }
};

/// `uid`: of the row of joins; "" where the two lines have the same word for their vessel.
struct Link {
  std::string uid, record_a, record_b;
  JoinKind kind = JoinKind::same_vessel;

  template <class V>
  static void fields(V& v) {
    v.field("uid", &Link::uid);
    v.field("record_a", &Link::record_a);
    v.field("record_b", &Link::record_b);
    v.field("kind", &Link::kind);
  }
};

/// Lines that are one vessel, by fresh and old joins, as the same vessel, or by its name.
struct LinkedVessel {
  std::vector<std::string> records, contexts, names;
  std::optional<std::int64_t> count;
  std::optional<Weight> weight;
  std::optional<std::int64_t> counted;  ///< vessels that its lines say together; a vessel should be counted once

  template <class V>
  static void fields(V& v) {
    v.field("records", &LinkedVessel::records);
    v.field("contexts", &LinkedVessel::contexts);
    v.field("names", &LinkedVessel::names);
    v.field("count", &LinkedVessel::count);
    v.field("weight_g", &LinkedVessel::weight);
    v.field("counted", &LinkedVessel::counted);
  }
};

struct LinksResponse : Reply {
  std::string record;
  std::vector<LinkedLine> lines;
  std::vector<Link> links;
  std::vector<LinkedVessel> vessels;
  std::int64_t fewest_vessels = 0;  ///< were all that are possibly the same the same
  bool cut_off = false;             ///< the network goes on beyond the lines that are told

  template <class V>
  static void fields(V& v) {
    v.field("record", &LinksResponse::record);
    v.field("lines", &LinksResponse::lines);
    v.field("links", &LinksResponse::links);
    v.field("vessels", &LinksResponse::vessels);
    v.field("fewest_vessels", &LinksResponse::fewest_vessels);
    v.field("cut_off", &LinksResponse::cut_off);
  }
};

/// The lines that are tied to one by joins or by the name of a vessel, over any number of links, and the vessels that
/// they come to. Errors: `no_record`, those of the store.
Result<LinksResponse> show_links(const LinksRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
