#include "exchange/drawings/read_svg.h"

#include <expat.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <memory>

#include "base/text.h"
#include "exchange/drawings/path_data.h"

namespace sherd::exchange {

namespace {

constexpr std::size_t kMostBytes = std::size_t{20} << 20;
constexpr std::size_t kMostPoints = 200'000;
constexpr std::size_t kMostLevels = 100;
constexpr double kToleranceMm = 0.02;

using Attributes = std::map<std::string, std::string, std::less<>>;

std::string local(std::string_view name) {
  const std::size_t colon = name.rfind(':');
  return std::string(colon == std::string_view::npos ? name : name.substr(colon + 1));
}

/// A property, from `style` before the attribute of its name.
std::string property(const Attributes& attributes, std::string_view name) {
  if (const auto style = attributes.find("style"); style != attributes.end()) {
    for (const std::string_view part : split(style->second, ';')) {
      const auto sides = split(part, ':');
      if (sides.size() == 2 && trim(sides[0]) == name) return std::string(trim(sides[1]));
    }
  }
  const auto found = attributes.find(name);
  return found == attributes.end() ? std::string() : std::string(trim(found->second));
}

struct Length {
  double value = 0;
  bool physical = false;  ///< it says how long it is
};
/// "210mm" -> 210; without a unit or in px as it stands (CSS 2.1, 4.3.2: 1 in is 2.54 cm, 72 pt, 6 pc).
std::optional<Length> length_of(std::string_view text) {
  static constexpr std::array<std::pair<std::string_view, double>, 5> kUnits{
      {{"mm", 1}, {"cm", 10}, {"in", 25.4}, {"pt", 25.4 / 72}, {"pc", 25.4 / 6}}};
  std::string_view number = trim(text);
  double times = 1;
  bool physical = false;
  for (const auto& [unit, mm] : kUnits) {
    if (!number.ends_with(unit)) continue;
    number.remove_suffix(unit.size());
    times = mm;
    physical = true;
    break;
  }
  if (number.ends_with("px")) number.remove_suffix(2);
  const auto numbers = read_numbers(number);
  if (!numbers || numbers->size() != 1) return std::nullopt;
  return Length{numbers->front() * times, physical};
}

/// Where the parser is: what holds for all that lies in a group.
struct Level {
  Affine transform;
  std::string name;
  bool hidden = false, dashed = false;
};

class SvgReader {
 public:
  explicit SvgReader(std::string_view bytes) : bytes_(bytes), parser_(XML_ParserCreate(nullptr), XML_ParserFree) {
    XML_SetUserData(parser_.get(), this);
    XML_SetElementHandler(parser_.get(), &SvgReader::start, &SvgReader::end);
    XML_SetDoctypeDeclHandler(parser_.get(), &SvgReader::doctype, &SvgReader::doctype_end);
    XML_SetEntityDeclHandler(parser_.get(), &SvgReader::entity);
  }

  Result<DrawnSheet> read() {
    if (bytes_.size() > kMostBytes) return fail("svg_too_large", "the drawing is larger than 20 MB");
    const auto status = XML_Parse(parser_.get(), bytes_.data(), static_cast<int>(bytes_.size()), XML_TRUE);
    if (error_) return std::unexpected(std::move(*error_));
    if (status != XML_STATUS_OK) {
      refuse({.code = "bad_svg",
              .message = std::string("the drawing is no well-formed SVG: ") +
                         XML_ErrorString(XML_GetErrorCode(parser_.get()))});
      return std::unexpected(std::move(*error_));
    }
    if (!is_svg_) return fail("bad_svg", "the file is no SVG drawing");
    if (sheet_.lines.empty())
      return fail("no_lines", "the drawing has no lines", "draw the outline as paths, not as a picture or text");
    return std::move(sheet_);
  }

 private:
  static void start(void* self, const XML_Char* name, const XML_Char** attributes) {
    static_cast<SvgReader*>(self)->open(name, attributes);
  }
  static void end(void* self, const XML_Char*) { static_cast<SvgReader*>(self)->levels_.pop_back(); }
  static void doctype(void* self, const XML_Char*, const XML_Char*, const XML_Char*, int own) {
    if (own != 0) static_cast<SvgReader*>(self)->hostile("declares a document type of its own");
  }
  static void doctype_end(void*) {}
  static void entity(void* self, const XML_Char*, int, const XML_Char*, int, const XML_Char*, const XML_Char*,
                     const XML_Char*, const XML_Char*) {
    static_cast<SvgReader*>(self)->hostile("declares entities");
  }

  void refuse(Error error) {
    if (error_) return;
    error.where.line = static_cast<std::int64_t>(XML_GetCurrentLineNumber(parser_.get()));
    error_ = std::move(error);
    XML_StopParser(parser_.get(), XML_FALSE);
  }
  void hostile(const std::string& what) {
    refuse({.code = "hostile_svg",
            .message = "the drawing " + what,
            .hint = "save it as plain SVG, with paths alone, and read that"});
  }

  void open(std::string_view qualified, const XML_Char** list) {
    const std::string name = local(qualified);
    Attributes attributes;
    for (; *list != nullptr; list += 2) attributes[list[0]] = list[1];
    Level level = levels_.empty() ? Level{} : levels_.back();
    if (levels_.size() >= kMostLevels)
      refuse({.code = "svg_too_large", .message = "the drawing's groups lie too deep"});
    look_for_harm(name, attributes);
    if (!error_) read_level(name, attributes, level);
    if (!error_ && !level.hidden) read_element(name, attributes, level);
    levels_.push_back(std::move(level));
  }

  void look_for_harm(const std::string& name, const Attributes& attributes) {
    if (lower(name) == "script" || lower(name) == "foreignobject" || lower(name) == "handler" ||
        lower(name) == "iframe")
      hostile("holds a \"" + shortened(name, 20) + "\", which no drawing needs");
    for (const auto& [key, value] : attributes) {
      const std::string plain = lower(local(key));
      const std::string text = lower(trim(value));
      if (plain.starts_with("on")) hostile("holds a handler of events (" + shortened(key, 20) + ")");
      if (text.starts_with("javascript:")) hostile("holds a script in an address");
      const bool elsewhere = plain == "href" && !text.starts_with('#') && !text.starts_with("data:");
      if (elsewhere && name != "image") hostile("refers to something elsewhere (" + shortened(value, 40) + ")");
    }
  }

  void read_level(const std::string& name, const Attributes& attributes, Level& level) {
    if (name == "svg" && levels_.empty()) {
      is_svg_ = true;
      read_page(attributes, level);
    }
    static constexpr std::array<std::string_view, 9> kDefined{"defs",   "symbol",   "clipPath", "mask", "pattern",
                                                              "marker", "metadata", "style",    "title"};
    level.hidden = level.hidden || std::ranges::find(kDefined, name) != kDefined.end() ||
                   property(attributes, "display") == "none" || property(attributes, "visibility") == "hidden";
    for (const auto& [key, value] : attributes) {
      const std::string plain = local(key);
      if ((plain == "id" || plain == "label" || plain == "class") && !(name == "svg" && levels_.empty()))
        level.name += (level.name.empty() ? "" : " ") + value;
    }
    if (const std::string dash = property(attributes, "stroke-dasharray"); !dash.empty()) level.dashed = dash != "none";
    if (const auto found = attributes.find("transform"); found != attributes.end()) {
      const auto transform = read_transform(found->second);
      if (!transform) return refuse(transform.error());
      level.transform = level.transform.after(*transform);
    }
  }

  /// The units of the page: how many millimetres one of its units is.
  void read_page(const Attributes& attributes, Level& level) {
    const auto value = [&](std::string_view name) -> std::optional<Length> {
      const auto found = attributes.find(name);
      return found == attributes.end() ? std::nullopt : length_of(found->second);
    };
    const auto width = value("width");
    const auto height = value("height");
    std::vector<double> box;
    if (const auto found = attributes.find("viewBox"); found != attributes.end()) {
      const auto numbers = read_numbers(found->second);
      if (!numbers || numbers->size() != 4 || (*numbers)[2] <= 0 || (*numbers)[3] <= 0)
        return refuse({.code = "bad_svg", .message = "the drawing's viewBox can not be read"});
      box = *numbers;
    }
    sheet_.in_mm = (width && width->physical) || (height && height->physical);
    if (box.empty()) {
      // Without a viewBox units are pixels, 96 to the inch (SVG 2, 8.2).
      if (sheet_.in_mm) level.transform = {25.4 / 96, 0, 0, 25.4 / 96, 0, 0};
      return;
    }
    double scale = 1;
    if (width && height) {
      // preserveAspectRatio keeps circles round: the lesser of the two.
      scale = std::min(width->value / box[2], height->value / box[3]);
    } else if (width || height) {
      scale = width ? width->value / box[2] : height->value / box[3];
    }
    if (!(scale > 0)) return refuse({.code = "bad_svg", .message = "the drawing's size can not be read"});
    level.transform = {scale, 0, 0, scale, -scale * box[0], -scale * box[1]};
  }

  void read_element(const std::string& name, const Attributes& attributes, const Level& level) {
    static constexpr std::array<std::string_view, 4> kPassed{"text", "image", "use", "tspan"};
    if (std::ranges::find(kPassed, name) != kPassed.end()) {
      if (std::ranges::find(sheet_.passed_by, name) == sheet_.passed_by.end()) sheet_.passed_by.push_back(name);
      return;
    }
    const auto data = data_of(name, attributes);
    if (!data) return refuse(data.error());
    if (data->empty()) return;
    auto paths = read_path_data(*data, level.transform, kToleranceMm, kMostPoints - std::min(kMostPoints, points_));
    if (!paths) return refuse(paths.error());
    for (const Subpath& path : *paths) {
      DrawnLine line{level.name, {}, path.closed, level.dashed};
      for (const DrawnPoint& point : path.points) line.points.push_back({point.x, point.y, level.dashed});
      points_ += line.points.size();
      sheet_.lines.push_back(std::move(line));
    }
  }

  /// Any shape as path data; "" for what is no shape.
  static Result<std::string> data_of(const std::string& name, const Attributes& attributes) {
    const auto text = [&](std::string_view key) {
      const auto found = attributes.find(key);
      return found == attributes.end() ? std::string() : found->second;
    };
    const auto number = [&](std::string_view key) {
      const auto length = length_of(text(key));
      return std::to_string(length ? length->value : 0.0) + " ";
    };
    if (name == "path") return text("d");
    if (name == "polyline" || name == "polygon") {
      const std::string points(trim(text("points")));
      if (points.empty()) return std::string();
      return "M" + points + (name == "polygon" ? "Z" : "");
    }
    if (name == "line") return "M" + number("x1") + number("y1") + "L" + number("x2") + number("y2");
    if (name == "rect")
      return "M" + number("x") + number("y") + "h" + number("width") + "v" + number("height") + "h-" + number("width") +
             "z";
    if (name == "circle" || name == "ellipse") {
      const std::string rx = number(name == "circle" ? "r" : "rx");
      const std::string ry = number(name == "circle" ? "r" : "ry");
      const auto half = length_of(rx);
      const std::string across = std::to_string(2 * (half ? half->value : 0.0));
      return "M" + number("cx") + number("cy") + "m-" + rx + "0a" + rx + ry + "0 1 1 " + across + " 0a" + rx + ry +
             "0 1 1 -" + across + " 0z";
    }
    return std::string();
  }

  std::string_view bytes_;
  std::unique_ptr<XML_ParserStruct, void (*)(XML_ParserStruct*)> parser_;
  std::vector<Level> levels_;
  DrawnSheet sheet_;
  std::size_t points_ = 0;
  std::optional<Error> error_;
  bool is_svg_ = false;
};

}  // namespace

Result<DrawnSheet> read_svg(std::string_view bytes) { return SvgReader(bytes).read(); }

}  // namespace sherd::exchange
