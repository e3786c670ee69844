#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/given_file.h"

namespace sherd::desk {

enum class PictureFormat { svg, pdf, png };
/// By the end of the file's name. Errors, of kind usage: `unknown_format`.
Result<PictureFormat> picture_format(const std::string& out);

struct PictureWish {
  std::string out, title;
  std::int64_t dots_per_inch = 600;  ///< of a PNG
};
/// Writes drawings as files; gives their names. Several pages make one PDF, and files numbered "plate-1.svg",
/// "plate-2.svg" of the other formats. Errors: `unknown_format`, `bad_number`, `picture_too_large`, those of the file.
Result<std::vector<std::string>> write_pictures(const std::vector<std::string>& svgs, const PictureWish& wish,
                                                Environment& environment);
/// Blank is 600. Errors, of kind usage: `bad_number` beyond 72 to 2,400.
Result<std::int64_t> dots_per_inch(std::optional<std::int64_t> asked);

/// What requests of a page say of the files that they want.
struct GiveChoice {
  std::string give;
  std::optional<std::int64_t> dpi;

  template <class V, class Request>
  static void give_fields(V& v) {
    v.field("give", &Request::give,
            option("put files into the answer, in base64, in place of pictures: svg, pdf or png"));
    v.field("dpi", &Request::dpi, option("of a PNG: dots per inch (600 unless said)"));
  }
};
/// Blank, svg, pdf or png, and the dots. Errors, of kind usage: `unknown_format`, `bad_number`.
Result<void> check_give(const GiveChoice& choice);
/// Drawings as files of an answer, none where none are asked for; `name` without its end. Errors: those of check_give,
/// `picture_too_large`.
Result<std::vector<GivenFile>> given_pictures(const std::vector<std::string>& svgs, const std::string& name,
                                              const std::string& title, const GiveChoice& choice);

struct PictureSize {
  double width_mm = 0, height_mm = 0;
};
/// The size that one of our drawings says it has.
PictureSize size_of_picture(const std::string& svg);

}  // namespace sherd::desk
