#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/progress.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

struct SamplesRequest {
  std::string store, site, kind, state;

  template <class V>
  static void fields(V& v) {
    v.field("store", &SamplesRequest::store, argument("the store"));
    v.field("kind", &SamplesRequest::kind, option("only thin_section, residue, chemistry or other"));
    v.field("state", &SamplesRequest::state, option("only those that are taken, sent, in (the result) or closed"));
    v.field("site", &SamplesRequest::site, option("the site, where the store holds several"));
  }
};

/// One component of a thin section.
struct CountedComponent {
  std::string component;
  std::int64_t count = 0;
  double percent = 0;

  template <class V>
  static void fields(V& v) {
    v.field("component", &CountedComponent::component);
    v.field("count", &CountedComponent::count);
    v.field("percent", &CountedComponent::percent);
  }
};

struct SampleRow {
  std::string sample, record, context, fabric, kind, question, technique, permission, laboratory, sent_on, received_on,
      result, remainder, returned_on, cost;
  std::string state;  ///< taken, sent, in, closed
  std::int64_t readings = 0;
  std::string section, petro_group, section_fabric;
  std::int64_t points = 0;
  std::vector<CountedComponent> components;
  std::vector<std::string> flags;

  template <class V>
  static void fields(V& v) {
    v.field("sample", &SampleRow::sample);
    v.field("record", &SampleRow::record);
    v.field("context", &SampleRow::context);
    v.field("fabric", &SampleRow::fabric);
    v.field("kind", &SampleRow::kind);
    v.field("question", &SampleRow::question);
    v.field("technique", &SampleRow::technique);
    v.field("permission", &SampleRow::permission);
    v.field("laboratory", &SampleRow::laboratory);
    v.field("sent_on", &SampleRow::sent_on);
    v.field("received_on", &SampleRow::received_on);
    v.field("result", &SampleRow::result);
    v.field("remainder", &SampleRow::remainder);
    v.field("returned_on", &SampleRow::returned_on);
    v.field("cost", &SampleRow::cost);
    v.field("state", &SampleRow::state);
    v.field("readings", &SampleRow::readings);
    v.field("section", &SampleRow::section);
    v.field("petro_group", &SampleRow::petro_group);
    v.field("section_fabric", &SampleRow::section_fabric);
    v.field("points", &SampleRow::points);
    v.field("components", &SampleRow::components);
    v.field("flags", &SampleRow::flags);
  }
};

struct SamplesResponse : Reply {
  std::vector<SampleRow> samples;
  std::int64_t taken = 0, sent = 0, in = 0, closed = 0;

  template <class V>
  static void fields(V& v) {
    v.field("samples", &SamplesResponse::samples);
    v.field("taken", &SamplesResponse::taken);
    v.field("sent", &SamplesResponse::sent);
    v.field("in", &SamplesResponse::in);
    v.field("closed", &SamplesResponse::closed);
  }
};

/// The register of samples with what came of each: readings, thin section and its points. Error `bad_choice`.
Result<SamplesResponse> list_samples(const SamplesRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
