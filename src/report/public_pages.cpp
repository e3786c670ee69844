#include "report/public_pages.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "base/text.h"
#include "report/fonts_css.h"
#include "report/html.h"
#include "sherd_report_data.h"

namespace sherd::report {

namespace {

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || static_cast<unsigned char>(c) >= 0x80;
}

struct Place {
  std::size_t from = 0, to = 0;
  std::string term;
};

/// Where the term first stands in the text as a whole word.
std::optional<Place> place_of(const std::string& low, const std::string& term) {
  const std::string word = lower(term);
  for (std::size_t at = low.find(word); at != std::string::npos; at = low.find(word, at + 1)) {
    std::size_t end = at + word.size();
    if (at > 0 && is_letter(low[at - 1])) continue;
    if (end < low.size() && low[end] == 's') ++end;
    if (end == low.size() || !is_letter(low[end])) return Place{at, end, term};
  }
  return std::nullopt;
}

std::string anchor(const std::string& term) {
  return "word-" + replace_all(replace_all(lower(term), " ", "-"), "'", "");
}

/// The text with its first use of each term tied to the glossary; terms already tied in this object are left.
std::string tied(const std::string& text, const std::vector<PageTerm>& terms, std::set<std::string>& done) {
  const std::string low = lower(text);
  std::vector<Place> places;
  for (const PageTerm& term : terms) {
    if (done.contains(term.term)) continue;
    const auto place = place_of(low, term.term);
    if (!place) continue;
    const bool over =
        std::ranges::any_of(places, [&](const Place& one) { return place->from < one.to && one.from < place->to; });
    if (over) continue;
    places.push_back(*place);
    done.insert(term.term);
  }
  std::ranges::sort(places, {}, &Place::from);
  std::string out;
  std::size_t at = 0;
  for (const Place& place : places) {
    out += html_text(text.substr(at, place.from - at));
    out += fmt::format("<a class=\"word\" href=\"#{}\">{}</a>", html_text(anchor(place.term)),
                       html_text(text.substr(place.from, place.to - place.from)));
    at = place.to;
  }
  return out + html_text(text.substr(at));
}

std::string picture_of(const PageObject& object) {
  if (object.photo.empty()) return object.picture;
  return fmt::format("<img src=\"{}\" alt=\"{}\">", html_text(object.photo), html_text(object.title));
}

std::string overview(const PublicPages& pages) {
  std::string out = "<nav class=\"all\" aria-label=\"All objects\"><ul>\n";
  for (const PageObject& object : pages.objects) {
    // Hidden from readers of screens: the picture comes again with its own words.
    out += fmt::format(
        "<li><a href=\"#{}\"><span class=\"small-picture\" aria-hidden=\"true\">{}</span><b>{}</b> <span "
        "class=\"quiet\">{}</span></a></li>\n",
        html_text(object.id), picture_of(object), html_text(object.title), html_text(object.kicker));
  }
  return out + "</ul></nav>\n";
}

std::string page_of(const PageObject& object, const std::vector<PageTerm>& terms) {
  std::set<std::string> done;
  std::string out = fmt::format(
      "<article id=\"{}\"><header><h2>{}</h2>\n<p class=\"kicker\">{}</p></header>\n<figure>{}</figure>\n<div "
      "class=\"years\">{}</div>\n<div class=\"texts\">\n",
      html_text(object.id), html_text(object.title), html_text(object.kicker), picture_of(object), object.years);
  for (const auto& [question, answer] : object.texts)
    out += fmt::format("<section><h3>{}</h3>\n<p>{}</p></section>\n", html_text(question), tied(answer, terms, done));
  out += "</div>\n";
  if (!object.caution.empty()) out += fmt::format("<p class=\"caution\">{}</p>\n", html_text(object.caution));
  return out + fmt::format("<p class=\"foot\">{}</p></article>\n", html_text(object.foot));
}

std::string list_of(const std::vector<std::string>& sentences) {
  std::string out = "<ul>\n";
  for (const std::string& sentence : sentences) out += "<li>" + html_text(sentence) + "</li>\n";
  return out + "</ul>\n";
}

std::string words_of(const PublicPages& pages) {
  std::string out = "<section class=\"end\" id=\"words\"><h2>Words</h2>\n<dl class=\"words\">\n";
  for (const PageTerm& term : pages.terms)
    out += fmt::format("<div id=\"{}\"><dt>{}</dt><dd>{}</dd></div>\n", html_text(anchor(term.term)),
                       html_text(term.term), html_text(term.meaning));
  out += "</dl></section>\n";
  if (!pages.mind.empty())
    out += "<section class=\"end\" id=\"mind\"><h2>What to mind</h2>\n" + list_of(pages.mind) + "</section>\n";
  if (!pages.about.empty())
    out += "<section class=\"end quiet\" id=\"about\"><h2>About these pages</h2>\n" + list_of(pages.about) +
           "</section>\n";
  return out;
}

}  // namespace

std::vector<PageTerm> terms_in(const std::string& text, const std::vector<PageTerm>& terms) {
  const std::string low = lower(text);
  std::vector<PageTerm> out;
  for (const PageTerm& term : terms) {
    if (place_of(low, term.term)) out.push_back(term);
  }
  return out;
}

std::string public_pages_html(const PublicPages& pages) {
  // Longer terms first, so that "lead glaze" is not taken for "glaze".
  std::vector<PageTerm> by_length = pages.terms;
  std::ranges::stable_sort(by_length,
                           [](const PageTerm& a, const PageTerm& b) { return a.term.size() > b.term.size(); });
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en-GB\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width, "
      "initial-scale=1\">\n<title>{}</title>\n<style>\n{}{}{}{}{}</style></head>\n<body "
      "class=\"public\"><main>\n<header "
      "class=\"top\"><h1>{}</h1>\n<p class=\"lead\">{}</p></header>\n",
      html_text(pages.title), font_faces(), report_style_css, report_public_css, report_figures_css,
      pages.small_paper
          ? "@page { size: 105mm 148mm; margin: 7mm; }\n@media print { body { font-size: 9pt; } .public article h2 { "
            "font-size: 16pt; } .top, .all, .end { display: none; } }\n"
          : "@page { size: A4; margin: 16mm; }\n",
      html_text(pages.title), html_text(pages.lead));
  out += overview(pages);
  for (const PageObject& object : pages.objects) out += page_of(object, by_length);
  return out + words_of(pages) + "</main></body></html>\n";
}

}  // namespace sherd::report
