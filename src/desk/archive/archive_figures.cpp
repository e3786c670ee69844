#include "desk/archive/archive_figures.h"

#include <optional>

#include "base/text.h"
#include "figure/entity_diagram.h"
#include "figure/render.h"

namespace sherd::desk {

namespace {

/// What stands between two marks, from `at` on, which is left behind it; nothing where they are not there.
std::optional<std::string_view> between(std::string_view text, std::size_t& at, std::string_view open,
                                        std::string_view close) {
  const std::size_t from = text.find(open, at);
  if (from == std::string_view::npos) return std::nullopt;
  const std::size_t to = text.find(close, from);
  if (to == std::string_view::npos) return std::nullopt;
  at = to + close.size();
  return text.substr(from, at - from);
}

std::string plain(std::string_view html) {
  std::string out;
  bool inside = false;
  for (const char c : html) {
    if (c == '<') inside = true;
    if (!inside) out += c;
    if (c == '>') inside = false;
  }
  for (const auto& [from, to] :
       {std::pair("&lt;", "<"), {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}, {"&amp;", "&"}})
    out = replace_all(std::move(out), from, to);
  return std::string(trim(out));
}

}  // namespace

Result<void> archive_figure(const FigureFile& figure, const std::string& svg, ArchiveFolder& folder) {
  SHERD_TRY(const std::string pdf, figure::to_pdf(svg, {figure.title}));
  ArchivedFile file{.path = figure.path + ".svg",
                    .category = "vector image",
                    .title = figure.title,
                    .description = figure.description,
                    .tag = {},
                    .history = {},
                    .sha256 = {}};
  SHERD_CHECK(folder.add(file, svg));
  file.path = figure.path + ".pdf";
  return folder.add(file, pdf);
}

std::vector<PageFigure> figures_of(std::string_view html) {
  std::vector<PageFigure> out;
  std::size_t at = 0;
  while (const auto block = between(html, at, "<figure", "</figure>")) {
    std::size_t inside = 0, caption_at = 0;
    const auto svg = between(*block, inside, "<svg", "</svg>");
    if (!svg) continue;
    const auto caption = between(*block, caption_at, "<figcaption", "</figcaption>");
    out.push_back({caption ? plain(*caption) : std::string(), std::string(*svg) + "\n"});
  }
  return out;
}

Result<void> archive_relations(const std::vector<ArchivedTable>& tables, ArchiveFolder& folder, Progress& progress) {
  figure::EntityFigure figure{{"How the tables of the archive belong together", {}}, {}};
  for (const ArchivedTable& table : tables) {
    if (table.history || table.path.starts_with("results/")) continue;
    figure::EntityTable entity{table.name, counted(table.rows, "row"), {}, 0};
    for (const ArchivedField& field : table.fields) {
      if (field.key || !field.refers.empty()) {
        entity.columns.push_back({field.name, field.key, field.refers.substr(0, field.refers.find('.'))});
      } else {
        ++entity.others;
      }
    }
    figure.tables.push_back(std::move(entity));
  }
  figure.about.left_out.emplace_back("Strong: the key. An arrow runs from a column to the table whose key it holds.");
  SHERD_TRY(const layout::Placed placed, layout::own_layout()->place(figure::drawing_of(figure), progress));
  return archive_figure({.path = "metadata/entity_relations",
                         .title = figure.about.title,
                         .description = "entity-relationship diagram of the tables"},
                        figure::entity_diagram(figure, placed), folder);
}

}  // namespace sherd::desk
