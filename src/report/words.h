#pragma once

#include <cstdint>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sherd::report {

enum class Spelling : std::uint8_t { british, american };

/// The fixed text of reports, by name, from data/report/words.csv: one column a spelling, blank where it is the same as
/// the first. {name} stands for what differs from report to report.
class Words {
 public:
  explicit Words(Spelling spelling = Spelling::british) : spelling_(spelling) {}

  using Values = std::initializer_list<std::pair<std::string_view, std::string>>;
  /// A name that the catalogue lacks comes back in double square brackets.
  std::string operator()(std::string_view name) const;
  std::string operator()(std::string_view name, Values values) const;
  /// "1 sherd", "1,230 sherds": the catalogue's "n.sherd" is "sherd|sherds".
  std::string counted(std::int64_t n, std::string_view noun) const;

  Spelling spelling() const { return spelling_; }
  /// Of HTML's lang: "en-GB".
  std::string_view language() const { return spelling_ == Spelling::american ? "en-US" : "en-GB"; }
  /// Every name of the catalogue, in its order.
  static std::vector<std::string> names();

 private:
  Spelling spelling_;
};

}  // namespace sherd::report
