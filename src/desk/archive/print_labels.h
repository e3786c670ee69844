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

struct LabelsRequest {
  std::string store, of, out, box, site;
  std::optional<std::int64_t> page, start;

  template <class V>
  static void fields(V& v) {
    v.field("store", &LabelsRequest::store, argument("the store"));
    v.field("of", &LabelsRequest::of, required_option("bags, boxes, or slips for what is out of its bag"));
    v.field("out", &LabelsRequest::out, required_option("the file to write: .pdf; .svg and .png hold one sheet"));
    v.field("box", &LabelsRequest::box, option("of this box only"));
    v.field("page", &LabelsRequest::page, option("which sheet goes into a .svg or .png, from 1"));
    v.field("start", &LabelsRequest::start, option("the first place of the first sheet that is still free, from 1"));
    v.field("site", &LabelsRequest::site, option("the site, where the store holds several"));
  }
};

struct LabelsResponse : Reply {
  std::string file;
  std::int64_t labels = 0, sheets = 0;
  double width_mm = 0, height_mm = 0;
  std::string rules;               ///< whose sizes and fields these are
  std::vector<std::string> codes;  ///< what the codes on them say

  template <class V>
  static void fields(V& v) {
    v.field("file", &LabelsResponse::file);
    v.field("labels", &LabelsResponse::labels);
    v.field("sheets", &LabelsResponse::sheets);
    v.field("width_mm", &LabelsResponse::width_mm);
    v.field("height_mm", &LabelsResponse::height_mm);
    v.field("rules", &LabelsResponse::rules);
    v.field("codes", &LabelsResponse::codes);
  }
};

/// Labels on sheets to be cut, by the rules of the repository: sizes, fields, and a QR code that says SITE:bag:NUMBER.
/// Errors: `unknown_labels`, `unknown_field`, `unknown_format`, `unknown_sheet`, `no_labels`, `no_page`,
/// `label_too_large`, `label_too_small`; those of store and file.
Result<LabelsResponse> print_labels(const LabelsRequest& request, Environment& environment, Progress& progress);

}  // namespace sherd::desk
