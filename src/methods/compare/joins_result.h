#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::compare {

struct JoinNode {
  std::string label, group;  ///< a context and its phase
  std::int64_t sherds = 0;
  std::int64_t within = 0;          ///< joins inside it
  std::int64_t across = 0;          ///< joins with others
  std::int64_t vessels_shared = 0;  ///< that lie in others, too
  std::int64_t component = 0;       ///< from 1, by first node; nodes that joins tie together

  template <class V>
  static void fields(V& v) {
    v.field("label", &JoinNode::label);
    v.field("group", &JoinNode::group);
    v.field("sherds", &JoinNode::sherds);
    v.field("within", &JoinNode::within);
    v.field("across", &JoinNode::across);
    v.field("vessels_shared", &JoinNode::vessels_shared);
    v.field("component", &JoinNode::component);
  }
};

struct JoinLink {
  std::string a, b;
  std::int64_t joins = 0, vessels = 0;
  double index = 0;  ///< joins over the root of the product of both sherd counts; 0 where a count is not known
  std::vector<std::string> records;

  template <class V>
  static void fields(V& v) {
    v.field("a", &JoinLink::a);
    v.field("b", &JoinLink::b);
    v.field("joins", &JoinLink::joins);
    v.field("vessels", &JoinLink::vessels);
    v.field("index", &JoinLink::index);
    v.field("records", &JoinLink::records);
  }
};

/// Contexts tied by joins of sherds.
struct JoinNetwork {
  std::vector<JoinNode> nodes;  ///< those that have any join, in the order given
  std::vector<JoinLink> links;  ///< the strongest first
  std::int64_t joins = 0, within = 0, between = 0;
  std::int64_t possible = 0;  ///< told as possibly the same vessel: in nothing else here
  std::optional<double> cohesion, modularity;
  std::int64_t components = 0;
  std::int64_t vessels_across = 0;  ///< vessels that lie in two nodes or more
  std::string note;

  template <class V>
  static void fields(V& v) {
    v.field("nodes", &JoinNetwork::nodes);
    v.field("links", &JoinNetwork::links);
    v.field("joins", &JoinNetwork::joins);
    v.field("within", &JoinNetwork::within);
    v.field("between", &JoinNetwork::between);
    v.field("possible", &JoinNetwork::possible);
    v.field("cohesion", &JoinNetwork::cohesion);
    v.field("modularity", &JoinNetwork::modularity);
    v.field("components", &JoinNetwork::components);
    v.field("vessels_across", &JoinNetwork::vessels_across);
    v.field("note", &JoinNetwork::note);
  }
};

}  // namespace sherd::compare
