#include "desk/recording/keep_file.h"

#include <optional>

#include "base/hash.h"
#include "base/text.h"
#include "desk/frame/session.h"

namespace sherd::desk {

namespace {

using namespace std::string_view_literals;

constexpr std::string_view kFolder = "files/";

std::int64_t byte_at(std::string_view bytes, std::size_t at) { return static_cast<unsigned char>(bytes[at]); }

std::int64_t big_endian(std::string_view bytes, std::size_t at, int count) {
  std::int64_t value = 0;
  for (int i = 0; i < count; ++i) value = value * 256 + byte_at(bytes, at + static_cast<std::size_t>(i));
  return value;
}

std::int64_t little_endian(std::string_view bytes, std::size_t at, int count) {
  std::int64_t value = 0;
  for (int i = count; i-- > 0;) value = value * 256 + byte_at(bytes, at + static_cast<std::size_t>(i));
  return value;
}

/// ISO/IEC 15948 (PNG), sections 5.2 and 11.2.2: the signature, then IHDR with width and height.
std::optional<PictureType> png(std::string_view bytes) {
  if (!bytes.starts_with("\x89PNG\r\n\x1A\n"sv) || bytes.size() < 33 || bytes.substr(12, 4) != "IHDR")
    return std::nullopt;
  return PictureType{"image/png", ".png", big_endian(bytes, 16, 4), big_endian(bytes, 20, 4)};
}

/// ITU-T T.81 (JPEG), annex B: segments until a start of frame, which holds height and width.
std::optional<PictureType> jpeg(std::string_view bytes) {
  if (!bytes.starts_with("\xFF\xD8\xFF"sv)) return std::nullopt;
  std::size_t at = 2;
  while (at + 9 < bytes.size() && byte_at(bytes, at) == 0xFF) {
    const std::int64_t marker = byte_at(bytes, at + 1);
    if (marker == 0xFF) {  // fill
      ++at;
      continue;
    }
    const bool start_of_frame = marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
    if (start_of_frame)
      return PictureType{"image/jpeg", ".jpg", big_endian(bytes, at + 7, 2), big_endian(bytes, at + 5, 2)};
    if (marker == 0xDA || marker == 0xD9) return std::nullopt;
    at += 2 + static_cast<std::size_t>(big_endian(bytes, at + 2, 2));
  }
  return std::nullopt;
}

/// RFC 9649 (WebP), sections 2.4 to 2.7: one of three first chunks, each with its own place for the size.
std::optional<PictureType> webp(std::string_view bytes) {
  if (bytes.size() < 30 || !bytes.starts_with("RIFF") || bytes.substr(8, 4) != "WEBP") return std::nullopt;
  const std::string_view chunk = bytes.substr(12, 4);
  PictureType type{"image/webp", ".webp", 0, 0};
  if (chunk == "VP8X") {
    type.width = 1 + little_endian(bytes, 24, 3);
    type.height = 1 + little_endian(bytes, 27, 3);
  } else if (chunk == "VP8L") {
    const std::int64_t packed = little_endian(bytes, 21, 4);
    type.width = 1 + packed % 16384;
    type.height = 1 + packed / 16384 % 16384;
  } else if (chunk == "VP8 ") {
    type.width = little_endian(bytes, 26, 2) % 16384;
    type.height = little_endian(bytes, 28, 2) % 16384;
  } else {
    return std::nullopt;
  }
  return type;
}

}  // namespace

Result<PictureType> picture_type(std::string_view bytes) {
  for (const auto& read : {png, jpeg, webp}) {
    const auto type = read(bytes);
    if (type && type->width > 0 && type->height > 0) return *type;
  }
  return fail("not_a_picture", "these bytes are no picture that can be kept",
              "send a whole PNG, JPEG or WebP file; drawings in SVG may hold scripts and are not taken");
}

Result<FileResponse> keep_file(const std::string& store, const std::string& site, const std::string& bytes,
                               Environment& environment) {
  if (bytes.size() > kMostPictureBytes) {
    return fail("too_large", "the picture has " + grouped(static_cast<long long>(bytes.size())) + " bytes",
                "at most " + grouped(static_cast<long long>(kMostPictureBytes)) + " are kept; make it smaller");
  }
  SHERD_TRY(const PictureType type, picture_type(bytes));
  FileResponse response;
  const std::string hash = sha256(bytes);
  response.name = std::string(kFolder) + hash + type.ending;
  response.mime = type.mime;
  response.bytes = static_cast<std::int64_t>(bytes.size());
  response.width = type.width;
  response.height = type.height;
  response.provenance.version = environment.version;
  response.provenance.inputs.push_back("sha256:" + hash);
  SHERD_TRY(const Session session, open_session(environment, store, site));
  SHERD_TRY(const auto names, session.store->document_names(session.site.code, response.name));
  response.was_there = !names.empty();
  if (response.was_there) return response;
  SHERD_TRY(const auto writing, session.store->begin(change_note(environment, "picture " + hash.substr(0, 12))));
  SHERD_CHECK(writing->put_document(session.site.code, {response.name, response.mime, bytes}));
  SHERD_CHECK(writing->commit());
  return response;
}

Result<Document> kept_file(const std::string& store, const std::string& site, const std::string& name,
                           Environment& environment) {
  const Error none{.code = "no_file",
                   .message = "there is no picture \"" + shortened(name, 80) + "\"",
                   .hint = "the rows of pictures name those that there are"};
  if (!name.starts_with(kFolder)) return fail(none);
  SHERD_TRY(const Session session, open_session(environment, store, site));
  SHERD_TRY(auto document, session.store->document(session.site.code, name));
  if (!document) return fail(none);
  const auto type = picture_type(document->bytes);
  if (!type || type->mime != document->mime) return fail(none);
  return std::move(*document);
}

}  // namespace sherd::desk
