#include "exchange/drawings/path_data.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "exchange/drawings/number_scanner.h"

namespace sherd::exchange {

namespace {

double length(const DrawnPoint& p) { return std::hypot(p.x, p.y); }
DrawnPoint operator+(const DrawnPoint& a, const DrawnPoint& b) { return {a.x + b.x, a.y + b.y}; }
DrawnPoint operator-(const DrawnPoint& a, const DrawnPoint& b) { return {a.x - b.x, a.y - b.y}; }
DrawnPoint operator*(double k, const DrawnPoint& p) { return {k * p.x, k * p.y}; }

class PathReader {
 public:
  PathReader(std::string_view data, const Affine& transform, double tolerance, std::size_t most)
      : scan_(data), transform_(transform), tolerance_(tolerance), most_(most) {}

  Result<std::vector<Subpath>> read() {
    while (!scan_.at_end()) {
      if (!scan_.at_number()) {
        command_ = scan_.peek();
        scan_.next();
        if (!is_command(command_)) return fail("bad_svg", std::string("\"") + command_ + "\" is no command of a path");
        if (paths_.empty() && command_ != 'M' && command_ != 'm')
          return fail("bad_svg", "a path begins with M, not with " + std::string(1, command_));
      } else if (command_ == '\0' || command_ == 'Z' || command_ == 'z') {
        return fail("bad_svg", "numbers stand in a path where a command is expected");
      }
      SHERD_CHECK(run());
      if (points_ > most_) return fail("svg_too_large", "the drawing's lines have more points than can be read");
    }
    std::erase_if(paths_, [](const Subpath& path) { return path.points.size() < 2; });
    return std::move(paths_);
  }

 private:
  static bool is_command(char c) { return std::string_view("MmLlHhVvCcSsQqTtAaZz").find(c) != std::string_view::npos; }
  bool relative() const { return command_ >= 'a'; }

  Result<DrawnPoint> point() {
    SHERD_TRY(const double x, scan_.number());
    SHERD_TRY(const double y, scan_.number());
    return relative() ? here_ + DrawnPoint{x, y} : DrawnPoint{x, y};
  }

  Result<void> run() {
    const char kind = static_cast<char>(relative() ? command_ - 'a' + 'A' : command_);
    switch (kind) {
      case 'M':
        return move();
      case 'Z':
        if (!paths_.empty()) paths_.back().closed = true;
        here_ = start_;
        closed_ = true;
        return {};
      case 'L': {
        SHERD_TRY(const DrawnPoint to, point());
        line_to(to);
        break;
      }
      case 'H': {
        SHERD_TRY(const double x, scan_.number());
        line_to({relative() ? here_.x + x : x, here_.y});
        break;
      }
      case 'V': {
        SHERD_TRY(const double y, scan_.number());
        line_to({here_.x, relative() ? here_.y + y : y});
        break;
      }
      case 'C':
      case 'S':
        return cubic(kind == 'S');
      case 'Q':
      case 'T':
        return quadratic(kind == 'T');
      default:
        return arc();
    }
    forget_controls();
    return {};
  }

  Result<void> move() {
    SHERD_TRY(here_, point());
    start_ = here_;
    closed_ = true;
    forget_controls();
    begin();
    command_ = command_ == 'm' ? 'l' : 'L';  // what follows are lines
    return {};
  }

  void begin() {
    paths_.push_back({{transform_(here_)}, false});
    closed_ = false;
    ++points_;
  }
  void emit(const DrawnPoint& to) {
    if (closed_) begin();
    paths_.back().points.push_back(to);
    ++points_;
  }
  void line_to(const DrawnPoint& to) {
    if (closed_) begin();
    emit(transform_(to));
    here_ = to;
  }
  void forget_controls() { cubic_control_ = quadratic_control_ = here_; }

  Result<void> cubic(bool smooth) {
    DrawnPoint first = 2 * here_ - cubic_control_;
    if (!smooth) {
      SHERD_TRY(first, point());
    }
    SHERD_TRY(const DrawnPoint second, point());
    SHERD_TRY(const DrawnPoint to, point());
    draw_cubic(first, second, to);
    cubic_control_ = second;
    quadratic_control_ = here_;
    return {};
  }

  Result<void> quadratic(bool smooth) {
    DrawnPoint control = 2 * here_ - quadratic_control_;
    if (!smooth) {
      SHERD_TRY(control, point());
    }
    SHERD_TRY(const DrawnPoint to, point());
    draw_cubic(here_ + 2.0 / 3 * (control - here_), to + 2.0 / 3 * (control - to), to);
    quadratic_control_ = control;
    cubic_control_ = here_;
    return {};
  }

  /// As many straight pieces as keep the greatest stray below the tolerance (Wang's bound: n^2 >= 3/4 of the largest
  /// second difference over it).
  void draw_cubic(const DrawnPoint& first, const DrawnPoint& second, const DrawnPoint& to) {
    if (closed_) begin();
    const std::array<DrawnPoint, 4> p{transform_(here_), transform_(first), transform_(second), transform_(to)};
    const double bend = std::max(length(p[0] - 2 * p[1] + p[2]), length(p[1] - 2 * p[2] + p[3]));
    constexpr double kMostPieces = 500;
    const int pieces = static_cast<int>(std::clamp(std::ceil(std::sqrt(0.75 * bend / tolerance_)), 1.0, kMostPieces));
    for (int i = 1; i <= pieces; ++i) {
      const double t = static_cast<double>(i) / pieces;
      const double u = 1 - t;
      emit(u * u * u * p[0] + 3 * u * u * t * p[1] + 3 * u * t * t * p[2] + t * t * t * p[3]);
    }
    here_ = to;
  }

  Result<void> arc() {
    SHERD_TRY(const double rx, scan_.number());
    SHERD_TRY(const double ry, scan_.number());
    SHERD_TRY(const double turned, scan_.number());
    SHERD_TRY(const bool large, scan_.flag());
    SHERD_TRY(const bool sweep, scan_.flag());
    SHERD_TRY(const DrawnPoint to, point());
    if (rx == 0 || ry == 0 || length(to - here_) == 0) {
      line_to(to);
    } else {
      draw_arc(std::abs(rx), std::abs(ry), turned * std::numbers::pi / 180, large, sweep, to);
    }
    forget_controls();
    return {};
  }

  /// SVG 1.1, appendix F.6: from end points to centre, then by cubic curves of at most a quarter each.
  void draw_arc(double rx, double ry, double turn, bool large, bool sweep, const DrawnPoint& to) {
    const double cosine = std::cos(turn);
    const double sine = std::sin(turn);
    const DrawnPoint half = 0.5 * (here_ - to);
    const double x = cosine * half.x + sine * half.y;
    const double y = cosine * half.y - sine * half.x;
    const double scale = std::sqrt(x * x / (rx * rx) + y * y / (ry * ry));
    if (scale > 1) {
      rx *= scale;
      ry *= scale;
    }
    const double square = rx * rx * y * y + ry * ry * x * x;
    const double root = std::sqrt(std::max(0.0, rx * rx * ry * ry / square - 1)) * (large == sweep ? -1 : 1);
    const double cx = root * rx * y / ry;
    const double cy = -root * ry * x / rx;
    const DrawnPoint middle = 0.5 * (here_ + to);
    const DrawnPoint centre{cosine * cx - sine * cy + middle.x, sine * cx + cosine * cy + middle.y};
    const double from = std::atan2((y - cy) / ry, (x - cx) / rx);
    double span = std::atan2((-y - cy) / ry, (-x - cx) / rx) - from;
    if (sweep && span < 0) span += 2 * std::numbers::pi;
    if (!sweep && span > 0) span -= 2 * std::numbers::pi;
    const int pieces = std::max(1, static_cast<int>(std::ceil(std::abs(span) / (std::numbers::pi / 2) - 1e-9)));
    const double step = span / pieces;
    const double handle = 4.0 / 3 * std::tan(step / 4);
    const auto on = [&](double u, double v) {
      return centre + DrawnPoint{cosine * rx * u - sine * ry * v, sine * rx * u + cosine * ry * v};
    };
    for (int i = 0; i < pieces; ++i) {
      const double a = from + i * step;
      const double b = a + step;
      const DrawnPoint end = i + 1 == pieces ? to : on(std::cos(b), std::sin(b));
      draw_cubic(on(std::cos(a) - handle * std::sin(a), std::sin(a) + handle * std::cos(a)),
                 on(std::cos(b) + handle * std::sin(b), std::sin(b) - handle * std::cos(b)), end);
    }
  }

  NumberScanner scan_;
  Affine transform_;
  double tolerance_;
  std::size_t most_, points_ = 0;
  std::vector<Subpath> paths_;
  DrawnPoint here_, start_, cubic_control_, quadratic_control_;
  char command_ = '\0';
  bool closed_ = true;  ///< the next line begins a new part
};

Result<Affine> one_transform(std::string_view name, const std::vector<double>& n) {
  const auto angle = [&] { return n[0] * std::numbers::pi / 180; };
  if (name == "matrix" && n.size() == 6) return Affine{n[0], n[1], n[2], n[3], n[4], n[5]};
  if (name == "translate" && (n.size() == 1 || n.size() == 2)) return Affine{1, 0, 0, 1, n[0], n.size() > 1 ? n[1] : 0};
  if (name == "scale" && (n.size() == 1 || n.size() == 2)) return Affine{n[0], 0, 0, n.size() > 1 ? n[1] : n[0], 0, 0};
  if (name == "rotate" && (n.size() == 1 || n.size() == 3)) {
    const Affine turn{std::cos(angle()), std::sin(angle()), -std::sin(angle()), std::cos(angle()), 0, 0};
    if (n.size() == 1) return turn;
    return Affine{1, 0, 0, 1, n[1], n[2]}.after(turn).after({1, 0, 0, 1, -n[1], -n[2]});
  }
  if (name == "skewX" && n.size() == 1) return Affine{1, 0, std::tan(angle()), 1, 0, 0};
  if (name == "skewY" && n.size() == 1) return Affine{1, std::tan(angle()), 0, 1, 0, 0};
  return fail("bad_svg", "the transform \"" + shortened(name, 20) + "\" can not be read");
}

}  // namespace

Affine Affine::after(const Affine& inner) const {
  return {a * inner.a + c * inner.b, b * inner.a + d * inner.b,     a * inner.c + c * inner.d,
          b * inner.c + d * inner.d, a * inner.e + c * inner.f + e, b * inner.e + d * inner.f + f};
}

Result<Affine> read_transform(std::string_view text) {
  Affine all;
  std::string_view rest = trim(text);
  constexpr int kMost = 100;
  for (int i = 0; i < kMost && !rest.empty(); ++i) {
    const std::size_t open = rest.find('(');
    const std::size_t close = rest.find(')');
    if (open == std::string_view::npos || close == std::string_view::npos || close < open)
      return fail("bad_svg", "the transform \"" + shortened(text, 30) + "\" can not be read");
    SHERD_TRY(const auto numbers, read_numbers(rest.substr(open + 1, close - open - 1)));
    SHERD_TRY(const Affine one, one_transform(trim(rest.substr(0, open)), numbers));
    all = all.after(one);
    rest.remove_prefix(close + 1);
    while (!rest.empty() && (rest.front() == ',' || rest.front() == ' ' || rest.front() == '\n')) rest.remove_prefix(1);
  }
  return all;
}

Result<std::vector<Subpath>> read_path_data(std::string_view data, const Affine& transform, double tolerance,
                                            std::size_t most) {
  return PathReader(data, transform, tolerance, most).read();
}

Result<std::vector<double>> read_numbers(std::string_view text) {
  NumberScanner scan(text);
  std::vector<double> numbers;
  while (!scan.at_end()) {
    SHERD_TRY(const double number, scan.number());
    numbers.push_back(number);
  }
  return numbers;
}

}  // namespace sherd::exchange
