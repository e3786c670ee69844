#include "desk/public/volunteer_key.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "base/csv.h"
#include "base/text.h"
#include "desk/frame/issues.h"
#include "desk/public/fabric_look.h"
#include "desk/public/public_record.h"
#include "desk/vessels/drawn_piece.h"
#include "desk/vessels/picture_files.h"
#include "figure/key_sheet.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

constexpr std::string_view kKind = "volunteer-key";

/// Of each fabric its sherds and the decoration that is most often on it.
struct FabricUse {
  std::int64_t sherds = 0;
  std::map<std::string, std::int64_t> decorations;
};

class KeyMaker {
 public:
  explicit KeyMaker(const PublicRecord& record) : record_(record) {
    for (const RecordLine& line : record.record().lines) {
      FabricUse& use = uses_[line.fabric];
      const std::int64_t sherds = line.count.value_or(1);
      use.sherds += sherds;
      all_ += sherds;
      if (!line.decoration.empty()) use.decorations[line.decoration] += sherds;
    }
  }

  Result<std::vector<std::string>> choose(const std::vector<std::string>& asked) const {
    std::vector<std::string> known;
    for (const Fabric& fabric : record_.record().fabrics) {
      if (lower(fabric.status) != "retired") known.push_back(fabric.fabric);
    }
    if (asked.size() > figure::kKeyPictures)
      return fail(ErrorKind::usage, "too_many",
                  "a key has twelve pictures at most, not " + std::to_string(asked.size()));
    for (const std::string& code : asked) {
      if (std::ranges::find(known, code) == known.end())
        return fail("unknown_fabric", "the series has no fabric \"" + code + "\"", did_you_mean(code, known));
    }
    if (!asked.empty()) return asked;
    std::erase_if(known, [&](const std::string& code) { return !uses_.contains(code); });
    if (known.empty())
      return fail("no_fabrics", "no line of the record has a fabric of the series yet",
                  "record some lines first, or name fabrics with --fabric");
    std::vector<std::string> common = known;
    std::ranges::stable_sort(common,
                             [&](const auto& a, const auto& b) { return uses_.at(a).sherds > uses_.at(b).sherds; });
    if (common.size() > figure::kKeyPictures) common.resize(figure::kKeyPictures);
    // In the order of the series, which puts like beside like.
    std::erase_if(known, [&](const std::string& code) { return std::ranges::find(common, code) == common.end(); });
    return known;
  }

  figure::KeyPicture picture(const std::string& code, int number) const {
    figure::KeyPicture out;
    out.number = number;
    out.code = code;
    out.seed = static_cast<std::uint64_t>(number) * 7919 + code.size();
    const Fabric* fabric = record_.fabric(code);
    if (!fabric) return out;
    out.name = fabric->name.empty() ? code : fabric->name;
    FabricLook look = fabric_look(*fabric, record_.inclusions(), usual_decoration(code));
    out.look = std::move(look.look);
    out.looks = std::move(look.sentences);
    if (const PieceRecord* piece = record_.typical_piece(code))
      out.vessel = draw_piece(*piece, "", LookSettings{}).drawing;
    return out;
  }

  std::int64_t sherds(const std::string& code) const { return uses_.contains(code) ? uses_.at(code).sherds : 0; }
  std::int64_t share(const std::vector<KeyEntry>& entries) const {
    std::int64_t sum = 0;
    for (const KeyEntry& one : entries) sum += sherds(one.fabric);
    return all_ > 0 ? (100 * sum + all_ / 2) / all_ : 0;
  }

 private:
  /// Where a tenth of the sherds or more have it.
  std::string usual_decoration(const std::string& code) const {
    const auto found = uses_.find(code);
    if (found == uses_.end()) return {};
    std::int64_t decorated = 0;
    const std::pair<const std::string, std::int64_t>* most = nullptr;
    for (const auto& one : found->second.decorations) {
      decorated += one.second;
      if (!most || one.second > most->second) most = &one;
    }
    return most && decorated * 10 >= found->second.sherds ? most->first : std::string();
  }

  const PublicRecord& record_;
  std::map<std::string, FabricUse> uses_;
  std::int64_t all_ = 0;
};

std::string kept_text(const std::vector<KeyEntry>& entries) {
  CsvRows rows{{"number", "fabric", "name"}};
  for (const KeyEntry& one : entries) rows.push_back({std::to_string(one.number), one.fabric, one.name});
  return csv_text(rows);
}

std::string document_name(std::int64_t number) { return std::string(kKind) + "/" + std::to_string(number); }

/// A key with its pages; its number where it is one that was kept already.
struct Key {
  ShowKeyResponse response;
  figure::KeySheet sheet;
  std::string text;
};

Result<Key> key_of(const Session& session, const PublicRecord& record, const std::vector<std::string>& asked,
                   const std::string& title) {
  const KeyMaker maker(record);
  Key key;
  SHERD_TRY(const auto chosen, maker.choose(asked));
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const int number = static_cast<int>(i) + 1;
    figure::KeyPicture picture = maker.picture(chosen[i], number);
    key.response.pictures.push_back({number, chosen[i], picture.name, picture.looks, maker.sherds(chosen[i])});
    key.sheet.pictures.push_back(std::move(picture));
  }
  key.response.share = maker.share(key.response.pictures);
  key.text = kept_text(key.response.pictures);
  SHERD_TRY(const std::int64_t newest, newest_issue(session, kKind));
  if (newest > 0) {
    SHERD_TRY(const auto kept, session.store->document(session.site.code, document_name(newest)));
    if (kept && kept->bytes == key.text) key.response.key = newest;
  }
  const std::string site = session.site.title.empty() ? session.site.code : session.site.title;
  key.sheet.title = title.empty() ? "Which pot is it? " + site : title;
  key.sheet.instructions = {
      "Hold your piece beside the pictures. Look at the outside, then at the break. Which picture is most like it?",
      "Write the number of the picture, how many pieces, and the letter of the part."};
  return key;
}

void draw(Key& key, const Session& session) {
  key.sheet.foot = session.site.code + ", key " +
                   (key.response.key ? std::to_string(*key.response.key) : "not kept yet") +
                   ". Colours and grains are drawn from the fabric series; pots are not to one scale.";
  key.response.pages = {figure::key_sheet(key.sheet), figure::key_form(key.sheet)};
}

Result<void> keep(Key& key, const Session& session, Environment& environment) {
  if (key.response.key) return {};
  SHERD_TRY(const std::int64_t newest, newest_issue(session, kKind));
  const std::int64_t number = newest + 1;
  SHERD_TRY(const auto writing,
            session.store->begin(change_note(environment, std::string(kKind) + " " + std::to_string(number))));
  SHERD_CHECK(writing->put_document(session.site.code, {document_name(number), "text/csv", key.text}));
  SHERD_CHECK(writing->commit());
  key.response.key = number;
  return {};
}

}  // namespace

Result<std::vector<KeyEntry>> kept_key(const Session& session, std::int64_t number) {
  SHERD_TRY(const auto kept, session.store->document(session.site.code, document_name(number)));
  if (!kept) {
    return fail("no_key", number > 0 ? "there is no key " + std::to_string(number) : "no key was made yet",
                "make one: sherdwright volunteer-key STORE --out key.pdf");
  }
  const auto damaged = [&] { return fail("damaged_document", "key " + std::to_string(number) + " cannot be read"); };
  const auto rows = parse_csv(kept->bytes);
  if (!rows) return damaged();
  std::vector<KeyEntry> out;
  for (std::size_t i = 1; i < rows->size(); ++i) {
    const auto& cells = (*rows)[i];
    KeyEntry one;
    if (cells.size() < 3) return damaged();
    const auto read = std::from_chars(cells[0].data(), cells[0].data() + cells[0].size(), one.number);
    if (read.ec != std::errc()) return damaged();
    one.fabric = cells[1];
    one.name = cells[2];
    out.push_back(std::move(one));
  }
  return out;
}

Result<KeyResponse> make_key(const KeyRequest& request, Environment& environment, Progress& progress) {
  SHERD_CHECK(picture_format(request.out));
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto record, PublicRecord::read(session, environment, progress));
  SHERD_TRY(Key key, key_of(session, *record, request.fabrics, request.title));
  SHERD_CHECK(keep(key, session, environment));
  draw(key, session);
  KeyResponse response = std::move(static_cast<KeyResponse&>(key.response));
  SHERD_TRY(response.files, write_pictures(key.response.pages, {request.out, key.sheet.title, 300}, environment));
  SHERD_TRY(response.provenance, session.provenance(environment));
  response.warnings = session.store->warnings();
  return response;
}

Result<ShowKeyResponse> show_key(const ShowKeyRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto record, PublicRecord::read(session, environment, progress));
  std::vector<std::string> fabrics;
  SHERD_TRY(const std::int64_t newest, newest_issue(session, kKind));
  if (newest > 0 && !request.fresh) {
    SHERD_TRY(const auto kept, kept_key(session, newest));
    for (const KeyEntry& one : kept) {
      const Fabric* fabric = record->fabric(one.fabric);
      if (fabric && lower(fabric->status) != "retired") fabrics.push_back(one.fabric);
    }
  }
  SHERD_TRY(Key key, key_of(session, *record, fabrics, ""));
  draw(key, session);
  SHERD_TRY(key.response.provenance, session.provenance(environment));
  key.response.warnings = session.store->warnings();
  return std::move(key.response);
}

Result<ShowKeyResponse> keep_key(const KeepKeyRequest& request, Environment& environment, Progress& progress) {
  SHERD_TRY(const Session session, open_session(environment, request.store, request.site));
  SHERD_TRY(const auto record, PublicRecord::read(session, environment, progress));
  SHERD_TRY(Key key, key_of(session, *record, request.fabrics, ""));
  SHERD_CHECK(keep(key, session, environment));
  draw(key, session);
  SHERD_TRY(key.response.provenance, session.provenance(environment));
  key.response.warnings = session.store->warnings();
  return std::move(key.response);
}

}  // namespace sherd::desk
