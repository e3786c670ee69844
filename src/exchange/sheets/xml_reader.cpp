#include "exchange/sheets/xml_reader.h"

#include <expat.h>
#include <fmt/format.h>

#include <cstring>

namespace sherd::exchange {
namespace {

constexpr int kChunkBytes = 64 * 1024;
constexpr std::uint64_t kLongestToken = std::uint64_t{8} << 20;  // a tag with its attributes; text comes in pieces

}  // namespace

std::optional<std::string_view> XmlAttributes::find(XmlSpace space, std::string_view local) const {
  for (const char** at = list_; *at != nullptr; at += 2) {
    const std::string_view name(at[0]);
    if (!name.ends_with(local)) continue;
    const XmlName resolved = names_.attribute(name);
    if (resolved.space == space && resolved.local == local) return at[1];
  }
  return std::nullopt;
}

struct XmlReader::Callbacks {
  static XmlReader& self(void* user) { return *static_cast<XmlReader*>(user); }
  static void start(void* user, const char* name, const char** attributes) {
    XmlReader& reader = self(user);
    if (reader.pending_ == Pending::stopped) return;
    reader.names_.open(attributes);
    reader.take_step(reader.handler_.start(reader.names_.element(name), XmlAttributes(attributes, reader.names_)));
  }
  // An empty element's end is still reported after its start has paused the parser.
  static void end(void* user, const char* name) {
    XmlReader& reader = self(user);
    if (reader.pending_ == Pending::stopped) return;
    reader.take_step(reader.handler_.end(reader.names_.element(name)));
    reader.names_.close();
  }
  static void text(void* user, const char* text, int size) {
    if (self(user).pending_ != Pending::stopped)
      self(user).take_step(self(user).handler_.text({text, static_cast<std::size_t>(size)}));
  }
  static void doctype(void* user, const char*, const char*, const char*, int) {
    self(user).doctype_ = true;
    self(user).take_step(XmlStep::stop);
  }
};

XmlReader::XmlReader(ZipEntry entry, XmlHandler& handler)
    : entry_(std::move(entry)), handler_(handler), parser_(XML_ParserCreate(nullptr)) {
  XML_SetUserData(parser_, this);
  XML_SetElementHandler(parser_, Callbacks::start, Callbacks::end);
  XML_SetCharacterDataHandler(parser_, Callbacks::text);
  XML_SetStartDoctypeDeclHandler(parser_, Callbacks::doctype);
}

XmlReader::~XmlReader() { XML_ParserFree(parser_); }

void XmlReader::take_step(XmlStep step) {
  if (step == XmlStep::go_on) return;
  const Pending before = pending_;
  pending_ = step == XmlStep::pause ? Pending::paused : Pending::stopped;
  if (before == Pending::none || pending_ == Pending::stopped)
    XML_StopParser(parser_, pending_ == Pending::paused ? XML_TRUE : XML_FALSE);
}

Result<bool> XmlReader::settle(int status) {
  if (doctype_)
    return fail("unsafe_file",
                fmt::format("The part {} declares a document type, which a spreadsheet never does.", entry_.name()),
                "Open it in a spreadsheet program, save it again, and read that.");
  if (pending_ == Pending::stopped) {
    if (handler_.error) return fail(*handler_.error);
    return false;
  }
  if (status == XML_STATUS_ERROR) {
    return damaged(fmt::format("The file is damaged: its part {} is not well-formed XML at line {} ({}).",
                               entry_.name(), XML_GetCurrentLineNumber(parser_),
                               XML_ErrorString(XML_GetErrorCode(parser_))));
  }
  return status == XML_STATUS_SUSPENDED;
}

Result<void> XmlReader::feed() {
  void* const room = XML_GetBuffer(parser_, kChunkBytes);
  if (room == nullptr)
    return damaged(fmt::format("The file is damaged: its part {} does not fit into memory.", entry_.name()));
  SHERD_TRY(const std::size_t got, entry_.read({static_cast<char*>(room), std::size_t{kChunkBytes}}));
  fed_ += got;
  ended_ = got == 0;
  return {};
}

Result<bool> XmlReader::run() {
  bool resume = pending_ == Pending::paused;
  pending_ = Pending::none;
  for (;;) {
    int status = 0;
    if (resume) {
      status = XML_ResumeParser(parser_);
    } else {
      if (ended_) return false;
      const std::uint64_t before = fed_;
      SHERD_CHECK(feed());
      status = XML_ParseBuffer(parser_, static_cast<int>(fed_ - before), ended_ ? 1 : 0);
    }
    resume = false;
    SHERD_TRY(const bool paused, settle(status));
    if (paused) return true;
    if (pending_ == Pending::stopped) return false;
    if (const auto parsed = XML_GetCurrentByteIndex(parser_); parsed > 0) parsed_ = static_cast<std::uint64_t>(parsed);
    if (fed_ - parsed_ > kLongestToken)
      return damaged(fmt::format("The file is damaged: its part {} holds one tag of more than 8 MB.", entry_.name()));
  }
}

Result<void> read_xml(ZipFile& zip, const std::string& name, XmlHandler& handler) {
  SHERD_TRY(ZipEntry entry, zip.entry(name));
  XmlReader reader(std::move(entry), handler);
  SHERD_CHECK(reader.run());
  return {};
}

}  // namespace sherd::exchange
