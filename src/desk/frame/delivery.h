#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/given_file.h"
#include "desk/frame/picture.h"
#include "desk/frame/reply.h"

namespace sherd::desk {

/// How the figures and tables of an answer are wanted: what all requests that draw have in common.
struct DeliveryRequest {
  bool picture = false;
  std::optional<std::int64_t> width;
  std::string figure, give;
  std::vector<std::string> out;

  template <class V>
  static void delivery_fields(V& v) {
    v.field("picture", &DeliveryRequest::picture, option("put the figures into the answer (SVG)"));
    v.field("width", &DeliveryRequest::width, option("width of figures in mm, 84 to 400 (174 unless said)"));
    v.field("figure", &DeliveryRequest::figure,
            option("which figure is written or given, where there are several (the first unless said)"));
    v.field("give", &DeliveryRequest::give,
            option("put a file into the answer, in base64: svg, pdf, png, csv or xlsx"));
    v.field("out", &DeliveryRequest::out,
            option("write this file: .svg, .pdf or .png for the figure, .csv or .xlsx for tables; may be given again"));
  }
};

/// What came of it.
struct Delivered {
  std::vector<DrawnPicture> pictures;
  std::optional<GivenFile> document;
  std::vector<std::string> files;  ///< that were written

  template <class V>
  static void delivered_fields(V& v) {
    v.field("pictures", &Delivered::pictures);
    v.field("document", &Delivered::document);
    v.field("files", &Delivered::files);
  }
};

/// A table of an answer, its heading first. The title is that of a sheet: 31 characters at most.
struct AnswerTable {
  std::string title;
  std::vector<std::vector<std::string>> rows;
};

/// What there is to deliver.
struct Deliverable {
  std::string name;                                  ///< of files: "ordination"
  std::string title;                                 ///< of a workbook
  std::string caution;                               ///< written beside the tables
  std::function<std::vector<AnswerTable>()> tables;  ///< the one that CSV has first
};

/// Whether the request's figures and files can be made at all: `bad_choice`, `unknown_format`.
Result<void> check_delivery(const DeliveryRequest& request);
/// True where the request asks for a figure, so that nothing need be drawn where it does not.
bool wants_figures(const DeliveryRequest& request);

/// Makes files, as far as the request asks for any; `reply` says what they rest on. Errors: `no_figure` (with the names
/// of those that there are), `no_table`, those of the renderer, of the spreadsheet and of writing.
Result<void> deliver(const DeliveryRequest& request, const Deliverable& what, std::vector<DrawnPicture> pictures,
                     Environment& environment, const Reply& reply, Delivered& out);

}  // namespace sherd::desk
