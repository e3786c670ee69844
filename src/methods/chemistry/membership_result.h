#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sherd::chemistry {

/// A member of a group, and how well the others alone would have it.
struct GroupMember {
  std::string id;
  double distance2 = 0;           ///< squared Mahalanobis distance, the member itself in the group
  double distance2_left_out = 0;  ///< the member left out of mean and covariance; infinite where the others leave no
                                  ///< room in its direction
  double t2 = 0, f = 0;           ///< of the left-out distance
  double probability = 0;         ///< that a member lies so far out or farther, the member left out

  template <class V>
  static void fields(V& v) {
    v.field("id", &GroupMember::id);
    v.field("distance2", &GroupMember::distance2);
    v.field("distance2_left_out", &GroupMember::distance2_left_out);
    v.field("t2", &GroupMember::t2);
    v.field("f", &GroupMember::f);
    v.field("probability", &GroupMember::probability);
  }
};

/// A sample that is no member of the group.
struct Outsider {
  std::string id;
  double distance2 = 0, t2 = 0, f = 0, probability = 0;

  template <class V>
  static void fields(V& v) {
    v.field("id", &Outsider::id);
    v.field("distance2", &Outsider::distance2);
    v.field("t2", &Outsider::t2);
    v.field("f", &Outsider::f);
    v.field("probability", &Outsider::probability);
  }
};

struct GroupMembership {
  std::string group;
  std::int64_t n = 0, p = 0;  ///< samples, variables
  std::vector<GroupMember> members;
  std::vector<Outsider> outsiders;

  template <class V>
  static void fields(V& v) {
    v.field("group", &GroupMembership::group);
    v.field("n", &GroupMembership::n);
    v.field("p", &GroupMembership::p);
    v.field("members", &GroupMembership::members);
    v.field("outsiders", &GroupMembership::outsiders);
  }
};

/// A group that nothing can be measured against.
struct RefusedGroup {
  std::string group;
  std::int64_t n = 0, needed = 0;
  std::string reason, way_out;

  template <class V>
  static void fields(V& v) {
    v.field("group", &RefusedGroup::group);
    v.field("n", &RefusedGroup::n);
    v.field("needed", &RefusedGroup::needed);
    v.field("reason", &RefusedGroup::reason);
    v.field("way_out", &RefusedGroup::way_out);
  }
};

/// What one group says of a sample.
struct Candidate {
  std::string group;
  double probability = 0;  ///< of membership, the sample left out of the group
  double share = 0;        ///< probability / sum of probabilities of all groups: only among these groups

  template <class V>
  static void fields(V& v) {
    v.field("group", &Candidate::group);
    v.field("probability", &Candidate::probability);
    v.field("share", &Candidate::share);
  }
};

/// A sample and all groups, the likeliest first.
struct SampleMembership {
  std::string id, record, group;
  std::vector<Candidate> candidates;
  std::string verdict;  ///< "member", "elsewhere", "several", "none"
  std::string words;    ///< the same as a phrase

  template <class V>
  static void fields(V& v) {
    v.field("id", &SampleMembership::id);
    v.field("record", &SampleMembership::record);
    v.field("group", &SampleMembership::group);
    v.field("candidates", &SampleMembership::candidates);
    v.field("verdict", &SampleMembership::verdict);
    v.field("words", &SampleMembership::words);
  }
};

/// Two groups compared by Hotelling's test.
struct GroupPair {
  std::string a, b;
  double distance2 = 0, t2 = 0, f = 0;
  std::int64_t df1 = 0, df2 = 0;
  double p = 1;  ///< that two samples of one population differ so much

  template <class V>
  static void fields(V& v) {
    v.field("a", &GroupPair::a);
    v.field("b", &GroupPair::b);
    v.field("distance2", &GroupPair::distance2);
    v.field("t2", &GroupPair::t2);
    v.field("f", &GroupPair::f);
    v.field("df1", &GroupPair::df1);
    v.field("df2", &GroupPair::df2);
    v.field("p", &GroupPair::p);
  }
};

struct Membership {
  std::vector<std::string> variables;
  double level = 0;  ///< a probability below it is no membership
  std::vector<GroupMembership> groups;
  std::vector<RefusedGroup> refused;
  std::vector<SampleMembership> samples;
  std::vector<GroupPair> pairs;
  std::vector<std::string> notes;

  template <class V>
  static void fields(V& v) {
    v.field("variables", &Membership::variables);
    v.field("level", &Membership::level);
    v.field("groups", &Membership::groups);
    v.field("refused", &Membership::refused);
    v.field("samples", &Membership::samples);
    v.field("pairs", &Membership::pairs);
    v.field("notes", &Membership::notes);
  }
};

}  // namespace sherd::chemistry
