#include "exchange/word_pictures.h"

#include <fmt/format.h>
#include <zip.h>

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <memory>
#include <vector>

#include "base/text.h"

namespace sherd::exchange {

namespace {

constexpr std::time_t kTime = 946'684'800;  // 2000-01-01
constexpr const char* kTypes = "[Content_Types].xml";
constexpr const char* kLinks = "word/_rels/document.xml.rels";
constexpr const char* kText = "word/document.xml";

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
struct CloseEntry {
  void operator()(zip_file_t* file) const { zip_fclose(file); }
};
struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};

std::unexpected<Error> unreadable(std::string_view part) {
  return fail("damaged_file", fmt::format("the word processor's file cannot be worked on at its part {}", part));
}

Result<std::string> part_of(zip_t* archive, const std::string& name) {
  zip_stat_t stat;
  zip_stat_init(&stat);
  const std::unique_ptr<zip_file_t, CloseEntry> file(zip_fopen(archive, name.c_str(), 0));
  if (!file || zip_stat(archive, name.c_str(), 0, &stat) != 0) return unreadable(name);
  std::string bytes(stat.size, '\0');
  if (zip_fread(file.get(), bytes.data(), bytes.size()) != static_cast<zip_int64_t>(bytes.size()))
    return unreadable(name);
  return bytes;
}

Result<void> put(zip_t* archive, const std::string& name, const std::string& bytes) {
  // The archive reads it when it is closed, and frees it.
  void* const copy = std::malloc(bytes.size() + 1);
  if (copy == nullptr) return unreadable(name);
  bytes.copy(static_cast<char*>(copy), bytes.size());
  zip_source_t* const source = zip_source_buffer(archive, copy, bytes.size(), 1);
  if (source == nullptr) {
    std::free(copy);
    return unreadable(name);
  }
  const zip_int64_t index = zip_file_add(archive, name.c_str(), source, ZIP_FL_OVERWRITE | ZIP_FL_ENC_UTF_8);
  if (index < 0) {
    zip_source_free(source);
    return unreadable(name);
  }
  zip_file_set_mtime(archive, static_cast<zip_uint64_t>(index), kTime, 0);
  return {};
}

/// A link of the text to an SVG: its name, and the part it leads to.
struct Link {
  std::string id, target;
};

std::string attribute(std::string_view element, std::string_view name) {
  const std::string begin = fmt::format(" {}=\"", name);
  const std::size_t from = element.find(begin);
  if (from == std::string_view::npos) return {};
  const std::size_t value = from + begin.size();
  return std::string(element.substr(value, element.find('"', value) - value));
}

std::vector<Link> svg_links(std::string_view links) {
  std::vector<Link> found;
  for (std::size_t at = links.find("<Relationship "); at != std::string_view::npos;
       at = links.find("<Relationship ", at + 1)) {
    const std::string_view element = links.substr(at, links.find('>', at) - at);
    Link link{attribute(element, "Id"), attribute(element, "Target")};
    if (link.target.ends_with(".svg")) found.push_back(std::move(link));
  }
  return found;
}

/// The picture that shows the SVG `id` shows the PNG `png` where SVG is not read.
void show_beside(std::string& text, const std::string& id, const std::string& png) {
  constexpr std::string_view kAlone = "<a:blip>";
  const std::string shown = fmt::format("r:embed=\"{}\"", id);
  const std::string both = fmt::format("<a:blip r:embed=\"{}\">", png);
  for (std::size_t at = text.find(shown); at != std::string::npos; at = text.find(shown, at + 1)) {
    const std::size_t picture = text.rfind(kAlone, at);
    if (picture == std::string::npos || text.find("</a:blip>", picture) < at) continue;
    text.replace(picture, kAlone.size(), both);
    at += both.size() - kAlone.size();
  }
}

/// Descriptions that are the picture's own bytes once more, as an address, are none.
std::string without_addresses(std::string_view text) {
  constexpr std::string_view kBegin = " descr=\"data:";
  std::string out;
  std::size_t done = 0;
  for (std::size_t at = 0; (at = text.find(kBegin, done)) != std::string_view::npos;) {
    out += text.substr(done, at - done);
    out += " descr=\"";
    done = std::min(text.find('"', at + kBegin.size()), text.size());
  }
  return out + std::string(text.substr(done));
}

Result<void> add_pictures(zip_t* archive, const std::function<Result<std::string>(std::string_view svg)>& to_png) {
  SHERD_TRY(std::string types, part_of(archive, kTypes));
  SHERD_TRY(std::string links, part_of(archive, kLinks));
  SHERD_TRY(std::string text, part_of(archive, kText));
  for (const Link& link : svg_links(links)) {
    SHERD_TRY(const std::string svg, part_of(archive, "word/" + link.target));
    SHERD_TRY(const std::string png, to_png(svg));
    const std::string target = link.target.substr(0, link.target.size() - 3) + "png", id = link.id + "png";
    SHERD_CHECK(put(archive, "word/" + target, png));
    links = replace_all(
        std::move(links), "</Relationships>",
        fmt::format("<Relationship Type=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships/image\" "
                    "Id=\"{}\" Target=\"{}\" /></Relationships>",
                    id, target));
    show_beside(text, link.id, id);
  }
  if (!types.contains("Extension=\"png\""))
    types =
        replace_all(std::move(types), "</Types>", "<Default Extension=\"png\" ContentType=\"image/png\" /></Types>");
  SHERD_CHECK(put(archive, kTypes, types));
  SHERD_CHECK(put(archive, kLinks, links));
  return put(archive, kText, without_addresses(text));
}

Result<std::string> bytes_of(zip_source_t* source) {
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_source_stat(source, &stat) != 0 || zip_source_open(source) != 0) return unreadable("(all)");
  std::string bytes(stat.size, '\0');
  const zip_int64_t got = zip_source_read(source, bytes.data(), bytes.size());
  zip_source_close(source);
  if (got != static_cast<zip_int64_t>(bytes.size())) return unreadable("(all)");
  return bytes;
}

}  // namespace

Result<std::string> with_png_beside_svg(std::string_view docx,
                                        const std::function<Result<std::string>(std::string_view svg)>& to_png) {
  const std::unique_ptr<zip_source_t, FreeSource> source(
      zip_source_buffer_create(docx.data(), docx.size(), 0, nullptr));
  if (!source) return unreadable("(all)");
  zip_source_keep(source.get());  // of which the archive frees one
  std::unique_ptr<zip_t, Discard> archive(zip_open_from_source(source.get(), 0, nullptr));
  if (!archive) {
    zip_source_free(source.get());
    return unreadable("(all)");
  }
  SHERD_CHECK(add_pictures(archive.get(), to_png));
  zip_t* const written = archive.release();
  if (zip_close(written) != 0) {
    zip_discard(written);
    return unreadable("(all)");
  }
  return bytes_of(source.get());
}

}  // namespace sherd::exchange
