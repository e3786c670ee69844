#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "base/text.h"
#include "desk/report/compose_report.h"
#include "desk/report/picture_figure.h"
#include "desk/report/report_outline.h"

/// Tables and figures as the specialist places them.
namespace sherd::desk {

namespace {

using report::Block;
using report::DocumentFigure;
using report::DocumentTable;
using report::Section;

constexpr double kPictureMm = 140;

const std::string* id_of(const Block& block) {
  if (const auto* table = std::get_if<DocumentTable>(&block)) return &table->id;
  if (const auto* figure = std::get_if<DocumentFigure>(&block)) return &figure->id;
  return nullptr;
}

void caption(Block& block, const std::string& text) {
  if (auto* table = std::get_if<DocumentTable>(&block)) table->caption = text;
  if (auto* figure = std::get_if<DocumentFigure>(&block)) figure->caption = text;
}

class Placer {
 public:
  Placer(const ReportInput& input, const Session& session, std::vector<Section>& sections, ComposedReport& out)
      : input_(input), session_(session), sections_(sections), out_(out) {}

  void place() {
    for (const ReportItem& item : input_.rows.items) {
      if (is_for(item.reports, input_.type)) one(item);
    }
    for (Section& section : sections_) order(section);
  }

 private:
  void one(const ReportItem& item) {
    if (item.shows.starts_with("tally ") || item.shows.starts_with("picture ")) {
      if (item.shown != Shown::no) add(item);
      return;
    }
    Section* holder = nullptr;
    std::size_t at = 0;
    if (!find(item.shows, holder, at)) {
      if (item.shown == Shown::no) return;  // nothing to leave out in this type
      out_.warnings.push_back("item " + item.item + " shows \"" + item.shows + "\", which this report has not" +
                              hint(item.shows));
      return;
    }
    if (item.shown == Shown::no) {
      holder->blocks.erase(holder->blocks.begin() + static_cast<std::ptrdiff_t>(at));
      return;
    }
    if (!item.caption.empty()) caption(holder->blocks[at], item.caption);
    if (item.item != item.shows) out_.aliases[item.item] = item.shows;
    if (item.position) positions_[item.shows] = *item.position;
    if (item.section.empty() || item.section == holder->id) return;
    Section* to = section_for(item);
    if (to == nullptr) return;
    Block block = std::move(holder->blocks[at]);
    holder->blocks.erase(holder->blocks.begin() + static_cast<std::ptrdiff_t>(at));
    to->blocks.push_back(std::move(block));
  }

  bool find(const std::string& id, Section*& holder, std::size_t& at) {
    for (Section& section : sections_) {
      for (std::size_t i = 0; i < section.blocks.size(); ++i) {
        const std::string* found = id_of(section.blocks[i]);
        if (found == nullptr || *found != id) continue;
        holder = &section;
        at = i;
        return true;
      }
    }
    return false;
  }

  std::string hint(const std::string& asked) const {
    std::vector<std::string> known;
    for (const Section& section : sections_) {
      for (const Block& block : section.blocks) {
        if (const std::string* id = id_of(block)) known.push_back(*id);
      }
    }
    const std::string meant = did_you_mean(asked, known);
    return meant.empty() ? "" : "; " + meant;
  }

  Section* section_for(const ReportItem& item) {
    const std::string_view id = section_of(item.section);
    const auto found = std::ranges::find(sections_, id, [](const Section& s) { return std::string_view(s.id); });
    if (found != sections_.end()) return &*found;
    out_.warnings.push_back("item " + item.item + " stands under \"" + item.section + "\", which this report has not");
    return nullptr;
  }

  /// A tally by fields of the record's own choice, or a picture of it.
  void add(const ReportItem& item) {
    Section* to = item.section.empty() ? nullptr : section_for(item);
    if (to == nullptr && !sections_.empty()) {
      const auto quantities = std::ranges::find(sections_, "quantities", &Section::id);
      to = quantities == sections_.end() ? &sections_.front() : &*quantities;
    }
    if (to == nullptr) return;
    if (item.position) positions_[item.item] = *item.position;
    if (item.shows.starts_with("tally ")) {
      add_tally(item, *to);
    } else {
      add_picture(item, *to);
    }
  }

  void add_tally(const ReportItem& item, Section& to) {
    const auto fields = split(trim(std::string_view(item.shows).substr(6)), ',');
    std::vector<std::string> by;
    for (const std::string_view field : fields) by.emplace_back(trim(field));
    const auto tally = std::ranges::find(input_.extra, by, &ReportTally::by);
    if (tally == input_.extra.end()) return;
    to.blocks.emplace_back(
        tally_table(input_, item.item, item.caption.empty() ? join(by, ", ") + "." : item.caption, by, tally->tally));
  }

  void problem(const ReportItem& item, std::string code, std::string message, std::string hint) {
    Error error{ErrorKind::data, std::move(code), "item " + item.item + ": " + message, {}, std::move(hint)};
    error.where.column = "shows";
    error.where.id = item.item;
    out_.problems.push_back(std::move(error));
  }

  void add_picture(const ReportItem& item, Section& to) {
    const std::string name(trim(std::string_view(item.shows).substr(8)));
    const auto picture = std::ranges::find(input_.rows.pictures, name, &Picture::picture);
    if (picture == input_.rows.pictures.end()) {
      std::vector<std::string> known;
      for (const Picture& one : input_.rows.pictures) known.push_back(one.picture);
      const std::string meant = did_you_mean(name, known);
      problem(item, "no_picture", "the record has no picture \"" + name + "\"",
              meant.empty() ? "add it in the Recording room, or leave the item out" : meant);
      return;
    }
    const auto document = session_.store->document(session_.site.code, picture->file);
    if (!document || !*document) {
      problem(item, "missing_picture", "the file of picture " + name + " is not in the store (" + picture->file + ")",
              "add the picture again, or leave the item out");
      return;
    }
    const auto svg = picture_svg((*document)->bytes, picture->title, kPictureMm);
    if (!svg) {
      problem(item, svg.error().code, "picture " + name + ": " + svg.error().message, svg.error().hint);
      return;
    }
    to.blocks.emplace_back(DocumentFigure{item.caption.empty() ? picture->title + "." : item.caption, *svg, item.item});
  }

  /// Items that have a position take the places of items in that order; those without keep theirs behind them.
  void order(Section& section) {
    std::vector<std::size_t> places;
    std::vector<Block> blocks;
    for (std::size_t i = 0; i < section.blocks.size(); ++i) {
      const std::string* id = id_of(section.blocks[i]);
      if (id == nullptr || !positions_.contains(*id)) continue;
      places.push_back(i);
      blocks.push_back(std::move(section.blocks[i]));
    }
    std::ranges::stable_sort(blocks, {}, [&](const Block& block) { return positions_.at(*id_of(block)); });
    for (std::size_t i = 0; i < places.size(); ++i) section.blocks[places[i]] = std::move(blocks[i]);
  }

  const ReportInput& input_;
  const Session& session_;
  std::vector<Section>& sections_;
  ComposedReport& out_;
  std::map<std::string, std::int64_t> positions_;
};

}  // namespace

void place_items(const ReportInput& input, const Session& session, std::vector<report::Section>& sections,
                 ComposedReport& out) {
  Placer(input, session, sections, out).place();
}

}  // namespace sherd::desk
