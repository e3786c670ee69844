#pragma once

#include <memory>
#include <optional>
#include <string_view>

#include "exchange/sheets/xml_names.h"
#include "exchange/sheets/zip_file.h"

struct XML_ParserStruct;

namespace sherd::exchange {

/// The attributes of one start tag; valid while it is handled.
class XmlAttributes {
 public:
  XmlAttributes(const char** list, const XmlNames& names) : list_(list), names_(names) {}
  /// The value of an attribute without a prefix, or nullopt.
  std::optional<std::string_view> find(std::string_view name) const { return find(XmlSpace::none, name); }
  std::optional<std::string_view> find(XmlSpace space, std::string_view local) const;
  std::string_view get(std::string_view name) const { return find(name).value_or(std::string_view{}); }
  std::string_view get(XmlSpace space, std::string_view local) const {
    return find(space, local).value_or(std::string_view{});
  }
  /// Calls take(XmlName, value) for each.
  template <class Take>
  void each(Take take) const {
    for (const char** at = list_; *at != nullptr; at += 2) take(names_.attribute(at[0]), std::string_view(at[1]));
  }

 private:
  const char** list_;
  const XmlNames& names_;
};

enum class XmlStep {
  go_on,
  pause,  ///< `XmlReader::run` returns true; the next call goes on
  stop,   ///< `run` returns the handler's `error` where it is set, false otherwise
};

/// Takes what the parser finds, in the part's order. The answers of `start`, `end` and `text` steer the reader.
class XmlHandler {
 public:
  XmlHandler() = default;
  XmlHandler(const XmlHandler&) = delete;
  XmlHandler& operator=(const XmlHandler&) = delete;
  virtual ~XmlHandler() = default;
  virtual XmlStep start(const XmlName& name, const XmlAttributes& attributes) = 0;
  virtual XmlStep end(const XmlName& name) = 0;
  virtual XmlStep text(std::string_view text) = 0;  ///< a stretch of text may come in several calls

  std::optional<Error> error;

 protected:
  XmlStep stop_with(std::unexpected<Error> reason) {
    error = std::move(reason).error();
    return XmlStep::stop;
  }
};

/// Parses one part of a zip file as it is unpacked. A document type declaration is refused, so no entities can be
/// defined. The handler must outlive the reader.
class XmlReader {
 public:
  XmlReader(ZipEntry entry, XmlHandler& handler);
  XmlReader(const XmlReader&) = delete;
  XmlReader& operator=(const XmlReader&) = delete;
  ~XmlReader();

  /// Parses until the handler pauses (true) or the part ends or the handler stops (false).
  /// Errors: `damaged_file` for XML that is not well formed, `unsafe_file`, those of `ZipEntry::read`, the handler's.
  Result<bool> run();

 private:
  struct Callbacks;
  enum class Pending { none, paused, stopped };
  void take_step(XmlStep step);
  Result<bool> settle(int status);
  Result<void> feed();

  ZipEntry entry_;
  XmlHandler& handler_;
  XML_ParserStruct* parser_;
  XmlNames names_;
  Pending pending_ = Pending::none;
  bool doctype_ = false;
  bool ended_ = false;
  std::uint64_t fed_ = 0;
  std::uint64_t parsed_ = 0;  ///< where the parser last said it stands
};

/// Reads a whole part through a handler that never pauses.
Result<void> read_xml(ZipFile& zip, const std::string& name, XmlHandler& handler);

}  // namespace sherd::exchange
