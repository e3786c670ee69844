#include "desk/public/pick_list.h"

#include <algorithm>
#include <map>
#include <set>

#include "base/numbers.h"
#include "base/text.h"
#include "desk/frame/csv.h"
#include "desk/frame/session.h"
#include "desk/public/pick_list_sheet.h"
#include "desk/public/public_record.h"
#include "notation/date.h"
#include "reference/public_side.h"
#include "reference/tables.h"

namespace sherd::desk {

namespace {

constexpr std::int64_t kMost = 12, kMostEver = 500;
// A ware or form that is on the list already counts so much less: ours, no source.
constexpr double kFabricAgain = 3, kFormAgain = 2, kContextAgain = 0.5;
constexpr std::array<std::string_view, 3> kIncluded{"human-remains", "away", "not-kept"};

/// What `PickWish` says, understood.
struct Wish {
  std::string theme;
  YearRange years;
  bool handling = false;
  std::set<std::string> include;
  std::size_t most = 12;
};

std::vector<ThemeName> all_themes() {
  std::vector<ThemeName> out;
  for (const reference::ThemeRule& rule : reference::theme_rules()) {
    if (out.empty() || out.back().theme != rule.theme) out.push_back({rule.theme, rule.title, 0});
  }
  return out;
}

Result<YearRange> years_of(const std::string& text) {
  static const Result<notation::DateReader> kReader = notation::DateReader::with(reference::periods());
  if (!kReader) return fail(Error(kReader.error()));
  const auto read = kReader->read(text);
  if (!read) {
    return fail(ErrorKind::usage, "unknown_period", "\"" + text + "\" is no period or date: " + read.error().message,
                "say for instance --period Roman, --period C13 or --period 1200-1400");
  }
  return YearRange{read->range.earliest, read->range.latest};
}

Result<Wish> understood(const PickWish& asked) {
  Wish wish;
  std::vector<std::string> known;
  for (const ThemeName& theme : all_themes()) known.push_back(theme.theme);
  wish.theme = lower(trim(asked.theme));
  if (!wish.theme.empty() && std::ranges::find(known, wish.theme) == known.end()) {
    const std::string near = did_you_mean(wish.theme, known);
    return fail(ErrorKind::usage, "unknown_theme", "there is no theme \"" + asked.theme + "\"",
                near.empty() ? "themes are " + join(known, ", ") : near);
  }
  if (!asked.use.empty() && asked.use != "talk" && asked.use != "handling")
    return fail(ErrorKind::usage, "unknown_use",
                "objects are picked for talk or handling, not for \"" + asked.use + "\"");
  wish.handling = asked.use == "handling";
  for (const std::string& word : asked.include) {
    const std::vector<std::string> words(kIncluded.begin(), kIncluded.end());
    if (std::ranges::find(words, word) == words.end()) {
      return fail(ErrorKind::usage, "unknown_word", "nothing is left out by the word \"" + word + "\"",
                  "it is one of " + join(words, ", "));
    }
    wish.include.insert(word);
  }
  const std::int64_t most = asked.most.value_or(kMost);
  if (most < 1 || most > kMostEver) return fail(ErrorKind::usage, "bad_number", "a list has 1 to 500 objects");
  wish.most = static_cast<std::size_t>(most);
  if (!asked.period.empty()) {
    SHERD_TRY(wish.years, years_of(asked.period));
  }
  return wish;
}

bool meets(const PublicObject& object, const YearRange& years) {
  if (years.empty()) return true;
  if (!object.earliest && !object.latest) return false;
  const bool before = object.latest && years.earliest && *object.latest < *years.earliest;
  const bool after = object.earliest && years.latest && *years.latest < *object.earliest;
  return !before && !after;
}

class Picker {
 public:
  Picker(const PublicRecord& record, const Wish& wish) : record_(record), wish_(wish) {}

  PickListResponse run() {
    response_.themes = all_themes();
    for (std::size_t i = 0; i < record_.record().lines.size(); ++i) consider(record_.object(i));
    response_.fitting = std::ssize(fitting_);
    choose();
    for (const auto& [because, lines] : left_out_) response_.left_out.push_back({because, lines});
    return std::move(response_);
  }

 private:
  void consider(PublicObject object) {
    for (ThemeName& theme : response_.themes)
      theme.lines += std::ranges::find(object.themes, theme.theme) != object.themes.end() ? 1 : 0;
    if (!wish_.theme.empty() && std::ranges::find(object.themes, wish_.theme) == object.themes.end()) return;
    if (!meets(object, wish_.years)) return;
    if (const std::string because = reason_against(object); !because.empty()) {
      ++left_out_[because];
      return;
    }
    fitting_.push_back(std::move(object));
  }

  std::string reason_against(const PublicObject& object) const {
    if (object.has("human_remains") && !wish_.include.contains("human-remains"))
      return "lay with human remains (ask with --include human-remains)";
    if (object.has("asbestos")) return "may hold asbestos";
    if (object.away == "not kept") {
      if (!wish_.include.contains("not-kept")) return "not kept after selection (ask with --include not-kept)";
    } else if (!object.away.empty() && !wish_.include.contains("away")) {
      return "out of its bag (ask with --include away)";
    }
    if (wish_.handling && object.sturdiness != Sturdiness::robust) return "not robust enough to be passed round";
    if (wish_.handling && object.has("residue")) return "kept for residue analysis";
    return {};
  }

  void choose() {
    std::ranges::stable_sort(fitting_, [](const PublicObject& a, const PublicObject& b) { return a.worth > b.worth; });
    std::map<std::string, int> fabrics, forms, contexts;
    std::vector<bool> taken(fitting_.size(), false);
    while (response_.objects.size() < wish_.most) {
      double best = -1e9;
      std::size_t at = fitting_.size();
      for (std::size_t i = 0; i < fitting_.size(); ++i) {
        if (taken[i]) continue;
        const PublicObject& one = fitting_[i];
        const double worth = one.worth - kFabricAgain * fabrics[one.fabric] - kFormAgain * forms[one.form] -
                             kContextAgain * contexts[one.context];
        if (worth > best + 1e-9) {
          best = worth;
          at = i;
        }
      }
      if (at == fitting_.size()) break;
      taken[at] = true;
      ++fabrics[fitting_[at].fabric];
      ++forms[fitting_[at].form];
      ++contexts[fitting_[at].context];
      response_.objects.push_back(fitting_[at]);
    }
  }

  const PublicRecord& record_;
  const Wish& wish_;
  PickListResponse response_;
  std::vector<PublicObject> fitting_;
  std::map<std::string, std::int64_t> left_out_;
};

Result<PickListResponse> named(const PublicRecord& record, const PickWish& asked, const Wish& wish) {
  PickListResponse response;
  response.themes = all_themes();
  std::vector<std::string> known;
  for (const std::string& name : asked.records) {
    const std::size_t at = record.line_of(name);
    if (at == std::string::npos) return fail("no_line", "the record has no line " + name);
    PublicObject object = record.object(at);
    if (object.has("human_remains") && !wish.include.contains("human-remains")) {
      return fail("with_human_remains", "record " + name + " lay with human remains",
                  "where it may be shown by consent and local rules, add --include human-remains");
    }
    response.objects.push_back(std::move(object));
  }
  response.fitting = std::ssize(response.objects);
  return response;
}

}  // namespace

Result<PickListResponse> picked(const PublicRecord& record, const PickWish& asked) {
  SHERD_TRY(const Wish wish, understood(asked));
  if (!asked.records.empty()) return named(record, asked, wish);
  PickListResponse response = Picker(record, wish).run();
  if (!response.objects.empty()) return response;
  std::string hint = "ask for another theme or period";
  for (const PickLeftOut& one : response.left_out)
    hint += "; " + counted(one.lines, "line") + " left out: " + one.because;
  return fail("nothing_fits", "no line of the record fits", hint);
}

Result<PickListResponse> pick_list(const PickListRequest& request, Environment& environment, Progress& progress) {
  const std::string ending = lower(request.out);
  const bool html = ending.ends_with(".html"), csv = ending.ends_with(".csv");
  if (!request.out.empty() && !html && !csv) {
    return fail(ErrorKind::usage, "unknown_format", "\"" + request.out + "\" names no format that a pick list can have",
                "end it in .html or .csv");
  }
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto record, PublicRecord::read(session, environment, progress));
  SHERD_TRY(PickListResponse response, picked(*record, request));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  if (html) SHERD_CHECK(environment.files->write(request.out, pick_list_html(session.site, request, response)));
  if (csv) SHERD_CHECK(environment.files->write(request.out, pick_list_csv(response)));
  response.file = request.out;
  return response;
}

}  // namespace sherd::desk
