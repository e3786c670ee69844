#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/fields.h"
#include "base/result.h"
#include "desk/frame/environment.h"
#include "desk/frame/reply.h"
#include "store/store.h"

/// Pictures that pages send: kept in the store by their hash, whatever they were called.
namespace sherd::desk {

/// The largest picture that is kept, in bytes.
constexpr std::size_t kMostPictureBytes = std::size_t{24} << 20;

/// What a picture is by its bytes.
struct PictureType {
  std::string mime, ending;
  std::int64_t width = 0, height = 0;  ///< in pixels
};
/// PNG, JPEG and WebP. Error `not_a_picture`: anything else, such as SVG (which may hold scripts), or a picture that is
/// cut off before its size.
Result<PictureType> picture_type(std::string_view bytes);

struct FileResponse : Reply {
  std::string name;  ///< of the document: "files/HASH.jpg"
  std::string mime;
  std::int64_t bytes = 0, width = 0, height = 0;
  bool was_there = false;  ///< these bytes were kept before

  template <class V>
  static void fields(V& v) {
    v.field("name", &FileResponse::name);
    v.field("mime", &FileResponse::mime);
    v.field("bytes", &FileResponse::bytes);
    v.field("width", &FileResponse::width);
    v.field("height", &FileResponse::height);
    v.field("was_there", &FileResponse::was_there);
  }
};

/// Errors: `too_large`, `not_a_picture`, those of the store.
Result<FileResponse> keep_file(const std::string& store, const std::string& site, const std::string& bytes,
                               Environment& environment);
/// A picture that was kept. Errors: `no_file` (other documents are not given out), those of the store.
Result<Document> kept_file(const std::string& store, const std::string& site, const std::string& name,
                           Environment& environment);

}  // namespace sherd::desk
