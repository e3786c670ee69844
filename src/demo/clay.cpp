#include "demo/clay.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "base/csv.h"
#include "base/numbers.h"
#include "base/random.h"
#include "base/text.h"
#include "demo/streams.h"
#include "sherd_demo_data.h"

namespace sherd::demo {

namespace {

constexpr std::size_t kElements = 14;
constexpr std::array<const char*, kElements> kNames{"Al", "Si", "K",  "Ca", "Ti", "Mn", "Fe",
                                                    "Zn", "Rb", "Sr", "Y",  "Zr", "Nb", "Pb"};
constexpr std::size_t kMajors = 7;  ///< in percent; the rest in ppm
using Amounts = std::array<double, kElements>;

/// What the instrument makes of an amount: reported = a + b amount, fading along the run by the last, with a counting
/// error and a limit. Invented.
struct Response {
  double a, b, fade, error, limit;
};
constexpr std::array<Response, kElements> kInstrument{{{0.6, 0.82, 0.00, 0.060, 0.5},
                                                       {1.2, 0.91, 0.00, 0.025, 0.5},
                                                       {0.05, 1.10, 0.01, 0.015, 0.05},
                                                       {0.03, 1.06, 0.01, 0.015, 0.02},
                                                       {0.01, 0.93, 0.02, 0.020, 0.02},
                                                       {0.004, 1.05, 0.02, 0.050, 0.008},
                                                       {0.10, 1.08, 0.05, 0.010, 0.02},
                                                       {4, 0.96, 0.02, 0.040, 8},
                                                       {2, 1.03, 0.01, 0.018, 4},
                                                       {3, 0.98, 0.01, 0.016, 4},
                                                       {1, 1.02, 0.01, 0.060, 4},
                                                       {6, 0.94, 0.02, 0.020, 6},
                                                       {1, 0.97, 0.01, 0.110, 12},
                                                       {2, 1.01, 0.01, 0.120, 15}}};

struct Clay {
  std::string source, name, place, east, north;
  std::vector<std::string> fabrics;
  Amounts mean{};
};

Result<Amounts> amounts_at(const std::vector<std::string>& row, std::size_t from) {
  Amounts out{};
  for (std::size_t j = 0; j < kElements; ++j) {
    SHERD_TRY(const std::int64_t value, parse_scaled(row[from + j], 6));
    out[j] = static_cast<double>(value) / 1e6;
  }
  return out;
}

/// Four figures, as instruments print them.
std::string printed(double value) {
  const int places = value >= 1000 ? 0 : value >= 100 ? 1 : value >= 1 ? 2 : 4;
  return format_fixed(value, places);
}

class Book {
 public:
  explicit Book(const DemoSite& site) : site_(site), random_(site.seed, kClayStream) {}

  Result<ClayBook> run() {
    SHERD_CHECK(read_tables());
    write_standards();
    write_sources();
    choose_sherds();
    run_instrument();
    write_sections();
    return std::move(out_);
  }

 private:
  Result<void> read_tables() {
    SHERD_TRY(const CsvRows clays, parse_csv(clays_csv));
    for (std::size_t r = 1; r < clays.size(); ++r) {
      const auto& row = clays[r];
      Clay clay{row[0], row[1], row[2], row[3], row[4], {}, {}};
      for (const std::string_view fabric : split(row[5], ';')) clay.fabrics.emplace_back(fabric);
      SHERD_TRY(clay.mean, amounts_at(row, 6));
      clays_.push_back(std::move(clay));
    }
    SHERD_TRY(const CsvRows standards, parse_csv(house_standards_csv));
    for (std::size_t r = 1; r < standards.size(); ++r) {
      SHERD_TRY(const Amounts amounts, amounts_at(standards[r], 1));
      standards_.emplace_back(standards[r][0], amounts);
    }
    return {};
  }

  void write_standards() {
    out_.standards.push_back({"standard", "name", "issuer", "basis", "source", "checked_by", "notes"});
    out_.certified.push_back(
        {"standard", "analyte", "unit", "value", "uncertainty", "uncertainty_kind", "status", "source"});
    for (const auto& [standard, amounts] : standards_) {
      out_.standards.push_back({standard, "fired briquette of mixed clays", "house standard", "ignited",
                                "demo: invented", standard == "brick-6" ? "" : "KM", "demo: invented"});
      for (std::size_t j = 0; j < kElements; ++j) {
        out_.certified.push_back({standard, kNames[j], j < kMajors ? "percent" : "ppm", format_double(amounts[j]),
                                  printed(0.02 * amounts[j]), "expanded", "certified", "demo: invented"});
      }
    }
  }

  void write_sources() {
    out_.sources.push_back({"chem_group", "name", "place", "east", "north", "grid", "basis", "reference"});
    for (const Clay& clay : clays_)
      out_.sources.push_back({clay.source, clay.name, clay.place, clay.east, clay.north, "demo grid, metres",
                              "wasters of a kiln", "demo: invented"});
  }

  /// Logarithms are normal: each element by itself, calcium and strontium wider, and all but silicon thinned together
  /// by temper.
  Amounts dug(const Clay& clay) {
    Amounts out{};
    const double thinned = 0.05 * random_.normal();
    for (std::size_t j = 0; j < kElements; ++j) {
      const double own = (j == 3 ? 0.16 : j == 9 ? 0.09 : 0.05) * random_.normal();
      out[j] = clay.mean[j] * std::exp(own + (j == 1 ? -0.3 * thinned : thinned));
    }
    return out;
  }

  struct Piece {
    std::string sample, group, record, context, fabric;
    Amounts amounts{};
  };

  std::vector<const RecordLine*> lines_of(const std::string& fabric) const {
    std::set<std::string> odd;
    for (const AsTyped& cell : site_.as_typed) odd.insert(cell.record);
    for (const Planted& planted : site_.planted) {
      for (const std::string_view id : split(planted.id, ';')) odd.insert(std::string(trim(id)));
    }
    std::vector<const RecordLine*> out;
    for (const RecordLine& line : site_.sherds) {
      const bool sound = line.fabric == fabric && !line.record.empty() && !odd.contains(line.record) && line.count &&
                         *line.count > 0 && line.rim_percent.value_or(Percent{}).tenths <= 1000;
      if (sound) out.push_back(&line);
    }
    return out;
  }

  void choose_sherds() {
    out_.truth.push_back({"sample", "source"});
    for (const Clay& clay : clays_) {
      for (int i = 1; i <= 18; ++i) {
        pieces_.push_back({clay.source.substr(0, 1) + "w-" + std::to_string(i), clay.source, "", "", "", dug(clay)});
        out_.truth.push_back({pieces_.back().sample, clay.source});
      }
    }
    int number = 0;
    for (std::size_t c = 0; c < clays_.size(); ++c) {
      for (const std::string& fabric : clays_[c].fabrics) {
        const auto lines = lines_of(fabric);
        const std::size_t wanted = std::min<std::size_t>(10, lines.size());
        for (std::size_t i = 0; i < wanted; ++i) {
          const RecordLine& line = *lines[i * lines.size() / wanted];
          // Two of each ten were called by the wrong fabric: their clay is the next source's.
          const std::size_t source = i % 5 == 3 ? (c + 1) % clays_.size() : c;
          const bool asked = i % 5 == 4;
          pieces_.push_back({"t-" + std::to_string(++number), asked ? "" : clays_[source].source, line.record,
                             line.context, fabric, dug(clays_[source])});
          out_.truth.push_back({pieces_.back().sample, clays_[source].source});
        }
      }
    }
    add_stranger();
    write_samples();
  }

  /// A sherd whose clay is of none of the three.
  void add_stranger() {
    const auto lines = lines_of("red-gloss");
    if (lines.empty()) return;
    Clay far = clays_.front();
    for (std::size_t j = 0; j < kElements; ++j) far.mean[j] *= j % 3 == 0 ? 1.7 : j % 3 == 1 ? 0.75 : 1.2;
    pieces_.push_back({"t-99", "", lines.front()->record, lines.front()->context, "red-gloss", dug(far)});
    out_.truth.push_back({"t-99", "elsewhere"});
  }

  void write_samples() {
    out_.samples.push_back({"sample", "record", "context", "kind", "question", "technique", "permission", "sampled_on",
                            "sent_on", "laboratory", "received_on", "result", "remainder", "returned_on"});
    std::size_t n = 0;
    for (const Piece& piece : pieces_) {
      if (piece.record.empty()) continue;
      const bool section = n % 8 == 2;
      out_.samples.push_back(
          {piece.sample, piece.record, piece.context, section ? "thin_section" : "chemistry", "of which kiln?",
           section ? "thin section, then readings on the offcut" : "X-ray fluorescence on a fresh break",
           "demo museum, 2 February 2026", "2026-02-16", "2026-02-20", "demo laboratory", "2026-03-12",
           "readings of 12 March", n % 3 == 0 ? "held" : "returned", n % 3 == 0 ? "" : "2026-03-20"});
      ++n;
    }
  }

  void read(const std::string& sample, const std::string& group, const std::string& surface, const Amounts& amounts,
            double along) {
    std::vector<std::string> row{std::to_string(++number_), sample, group, surface, "demo instrument 1", "clay mode",
                                 "2026-03-12T" + clock(),   "60"};
    for (std::size_t j = 0; j < kElements; ++j) {
      const Response& by = kInstrument[j];
      const double seen = (by.a + by.b * amounts[j]) * (1 - by.fade * along);
      const double error = std::max(by.error * seen, 0.2 * by.limit);
      const double value = seen + error * random_.normal();
      const bool below = value < by.limit;
      row.push_back(below ? "<LOD" : printed(value));
      row.push_back(printed(2 * (below ? by.limit / 2 : error)));
    }
    out_.readings.push_back(std::move(row));
  }

  std::string clock() const {
    const int minutes = 9 * 60 + 2 * number_;
    const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
    return two(minutes / 60 % 24) + ":" + two(minutes % 60);
  }

  void heading() {
    std::vector<std::string> row{"Reading No", "Sample ID", "chem_group", "Surface",
                                 "Instrument", "Mode",      "Date Time",  "Live Time"};
    for (std::size_t j = 0; j < kElements; ++j) {
      row.push_back(std::string(kNames[j]) + (j < kMajors ? " (%)" : " (ppm)"));
      row.push_back(std::string(kNames[j]) + " +/- 2s");
    }
    out_.readings.push_back(std::move(row));
  }

  /// Standards first, then the pieces, two spots each, with the check standard after every ten.
  void run_instrument() {
    heading();
    const Amounts& check = standards_.back().second;
    const double all = static_cast<double>(2 * pieces_.size());
    for (int i = 0; i < 2; ++i) read("check-brick", "", "pressed face", check, 0);
    for (const auto& [standard, amounts] : standards_) {
      if (standard == "check-brick") continue;
      Amounts true_amounts = amounts;
      if (standard == "brick-6") true_amounts[1] *= 10;  // its certificate was copied with silicon ten times too small
      for (int i = 0; i < 3; ++i) read(standard, "", "pressed face", true_amounts, 0);
    }
    double done = 0;
    for (const Piece& piece : pieces_) {
      for (int spot = 0; spot < 2; ++spot) {
        Amounts at = piece.amounts;
        for (double& amount : at) amount *= std::exp(0.015 * random_.normal());
        read(piece.sample, piece.group, "fresh break", at, done / all);
        done += 1;
        if (static_cast<int>(done) % 10 == 0) read("check-brick", "", "pressed face", check, done / all);
      }
    }
    read("check-brick", "", "pressed face", check, 1);
  }

  void write_sections() {
    out_.petrology.push_back(
        {"section", "sample", "record", "fabric", "petro_group", "groundmass", "inclusions", "points", "described_by"});
    out_.point_counts.push_back({"section", "component", "count"});
    int number = 0;
    for (std::size_t r = 1; r < out_.samples.size(); ++r) {
      const auto& sample = out_.samples[r];
      if (sample[3] != "thin_section") continue;
      const auto piece = std::ranges::find(pieces_, sample[0], &Piece::sample);
      const bool shelly = piece->fabric == "shell-3";
      const std::string section = "ts-" + std::to_string(++number);
      out_.petrology.push_back({section, sample[0], sample[1], piece->fabric, shelly ? "shelly" : "quartz sand",
                                "brown, weakly active", shelly ? "common shell, moderate quartz" : "common quartz",
                                "300", "demo petrologist"});
      const int quartz = (shelly ? 24 : 66) + static_cast<int>(random_.below(12));
      const int shell = shelly ? 42 + static_cast<int>(random_.below(15)) : 0;
      const int iron = 3 + static_cast<int>(random_.below(6));
      const int voids = 9 + static_cast<int>(random_.below(9));
      const auto add = [&](const char* component, int count) {
        if (count > 0) out_.point_counts.push_back({section, component, std::to_string(count)});
      };
      add("quartz", quartz);
      add("shell", shell);
      add("iron-rich grains", iron);
      add("void", voids);
      add("matrix", 300 - quartz - shell - iron - voids);
    }
  }

  const DemoSite& site_;
  Random random_;
  std::vector<Clay> clays_;
  std::vector<std::pair<std::string, Amounts>> standards_;
  std::vector<Piece> pieces_;
  int number_ = 0;
  ClayBook out_;
};

}  // namespace

Result<ClayBook> clay_book(const DemoSite& site) { return Book(site).run(); }

}  // namespace sherd::demo
