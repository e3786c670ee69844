#include "desk/public/key_answers.h"

#include <algorithm>
#include <charconv>

#include "base/csv.h"
#include "base/text.h"
#include "desk/frame/issues.h"
#include "desk/frame/session.h"
#include "desk/public/volunteer_key.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kUnknown = "unknown";

struct Answer {
  std::string context, bag, picture, pieces, part, grams, noticed;
};

std::optional<std::int64_t> number_of(std::string_view text) {
  std::int64_t value = 0;
  text = trim(text);
  const auto read = std::from_chars(text.data(), text.data() + text.size(), value);
  return !text.empty() && read.ec == std::errc() && read.ptr == text.data() + text.size() && value >= 0
             ? std::optional(value)
             : std::nullopt;
}

/// "R" is rim, "RH" rim and handle, which a line has as its rim; words stay as they are.
std::string part_of(std::string_view text) {
  const std::string part(trim(text));
  if (part.empty() || part.size() > 3) return lower(part);
  for (const auto& [letter, name] :
       {std::pair{'R', "rim"}, std::pair{'F', "base"}, std::pair{'H', "handle"}, std::pair{'B', "body"}}) {
    if (part.find(letter) != std::string::npos) return name;
  }
  return lower(part);
}

Result<Answer> answer_of(const std::string& text, const KeyAnswersRequest& request) {
  const auto parts = split(text, ':');
  if (parts.size() < 2 || parts.size() > 4) {
    return fail(ErrorKind::usage, "bad_answer", "\"" + text + "\" is no answer",
                "write PICTURE:PIECES, such as 3:5, or with part and grams 3:5:rim:23.5");
  }
  Answer out{request.context, request.bag, std::string(parts[0]), std::string(parts[1]), "", "", ""};
  if (parts.size() > 2) out.part = std::string(parts[2]);
  if (parts.size() > 3) out.grams = std::string(parts[3]);
  return out;
}

Result<std::vector<Answer>> answers_of_file(const KeyAnswersRequest& request, Environment& environment) {
  SHERD_TRY(const std::string text, environment.files->read(request.file));
  SHERD_TRY(const CsvRows rows, parse_csv(text));
  const auto column = [&](std::string_view name) {
    const auto found =
        std::ranges::find_if(rows[0], [&](const std::string& cell) { return lower(trim(cell)) == name; });
    return found == rows[0].end() ? std::string::npos : static_cast<std::size_t>(found - rows[0].begin());
  };
  const std::size_t picture = column("picture"), pieces = column("pieces");
  if (picture == std::string::npos || pieces == std::string::npos) {
    return fail("bad_answer", request.file + " has no columns picture and pieces",
                "its columns are picture, pieces, and as known context, bag, part, grams, noticed");
  }
  std::vector<Answer> out;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const auto cell = [&](std::size_t at, const std::string& unless) {
      return at == std::string::npos || trim(rows[i][at]).empty() ? unless : std::string(trim(rows[i][at]));
    };
    out.push_back({cell(column("context"), request.context), cell(column("bag"), request.bag), cell(picture, ""),
                   cell(pieces, ""), cell(column("part"), ""), cell(column("grams"), ""), cell(column("noticed"), "")});
  }
  return out;
}

class Taker {
 public:
  Taker(const KeyAnswersRequest& request, const Environment& environment, std::int64_t key,
        const std::vector<KeyEntry>& entries)
      : request_(request), today_(environment.now().substr(0, 10)), key_(key), entries_(entries) {}

  Result<EditStep> step(const Answer& answer) {
    const auto picture = number_of(answer.picture);
    const auto pieces = number_of(answer.pieces);
    const std::string shown = answer.picture + ":" + answer.pieces;
    if (!picture || !pieces || *pieces < 1) {
      return fail(ErrorKind::usage, "bad_answer",
                  "\"" + shown + "\" is no answer: a picture's number and at least one piece",
                  "write PICTURE:PIECES, such as 3:5; picture 0 is none of them");
    }
    if (answer.context.empty())
      return fail(ErrorKind::usage, "no_context", "it is not said where the pieces come from", "say --context NUMBER");
    EditStep out;
    out.act = "add";
    out.kind = "sherds";
    SHERD_TRY(const std::string fabric, fabric_of(*picture));
    out.values = {{"context", answer.context},        {"fabric", fabric},        {"fabric_certainty", "possible"},
                  {"count", std::to_string(*pieces)}, {"recorder", request_.by}, {"recorded_on", today_}};
    const auto put = [&](const char* column, const std::string& value) {
      if (!value.empty()) out.values.emplace(column, value);
    };
    put("bag", answer.bag);
    put("part", part_of(answer.part));
    put("weight_g", answer.grams);
    std::string note = "volunteer, key " + std::to_string(key_) + ", picture " + std::to_string(*picture);
    if (!answer.noticed.empty()) note += ": " + answer.noticed;
    put("notes", note);
    return out;
  }
  bool asks_unknown() const { return asks_unknown_; }

 private:
  Result<std::string> fabric_of(std::int64_t picture) {
    if (picture == 0) {
      asks_unknown_ = true;
      return std::string(kUnknown);
    }
    for (const KeyEntry& one : entries_) {
      if (one.number == picture) return one.fabric;
    }
    return fail("no_picture", "key " + std::to_string(key_) + " has no picture " + std::to_string(picture),
                "its pictures are 1 to " + std::to_string(entries_.size()) + ", and 0 for none of them");
  }

  const KeyAnswersRequest& request_;
  std::string today_;
  std::int64_t key_;
  const std::vector<KeyEntry>& entries_;
  bool asks_unknown_ = false;
};

Result<bool> has_fabric(const Session& session, std::string_view code) {
  SHERD_TRY(const Table table,
            session.store->read({session.site.code, Kind::fabrics, {"fabric"}, {}, {{"fabric", std::string(code)}}}));
  return table.rows() > 0;
}

}  // namespace

Result<EditsResponse> take_answers(const KeyAnswersRequest& request, Environment& environment, Progress&) {
  std::vector<Answer> answers;
  if (!request.file.empty()) {
    SHERD_TRY(answers, answers_of_file(request, environment));
  }
  for (const std::string& text : request.answers) {
    SHERD_TRY(Answer answer, answer_of(text, request));
    answers.push_back(std::move(answer));
  }
  if (answers.empty())
    return fail(ErrorKind::usage, "nothing_answered", "there is no answer",
                "write PICTURE:PIECES, such as 3:5, or name a file");
  EditsRequest edits;
  {
    SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
    SHERD_TRY(const std::int64_t newest, newest_issue(session, "volunteer-key"));
    const std::int64_t key = request.key.value_or(newest);
    SHERD_TRY(const auto entries, kept_key(session, key));
    Taker taker(request, environment, key, entries);
    for (const Answer& answer : answers) {
      SHERD_TRY(EditStep step, taker.step(answer));
      edits.steps.push_back(std::move(step));
    }
    SHERD_TRY(const bool known, has_fabric(session, kUnknown));
    if (taker.asks_unknown() && !known) {
      EditStep add;
      add.act = "add";
      add.kind = "fabrics";
      add.values = {{"fabric", std::string(kUnknown)}, {"name", "Not known yet"}, {"status", "provisional"}};
      edits.steps.insert(edits.steps.begin(), std::move(add));
    }
    edits.label =
        "volunteer key " + std::to_string(key) + ", " + counted(std::ssize(answers), "answer") + " of " + request.by;
  }
  edits.store = request.store;
  edits.site = request.site;
  edits.change = request.change.empty() ? environment.new_uid() : request.change;
  return apply_steps(edits, true, environment);
}

}  // namespace sherd::desk
