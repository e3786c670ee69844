#include "desk/report/citations.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/text.h"

namespace sherd::desk {

namespace {

using Json = nlohmann::json;

std::string text_at(const Json& entry, const char* name) {
  const auto found = entry.find(name);
  if (found == entry.end()) return {};
  if (found->is_string()) return found->get<std::string>();
  return found->is_number() ? found->dump() : std::string();
}

/// "C. E.": the first letters of given names, parts of a double name with their hyphen.
std::string initials(const std::string& given) {
  std::string out;
  bool begins = true;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const char c = given[i];
    if (c == ' ' || c == '.' || c == '-') {
      if (c == '-') out += '-';
      begins = true;
      continue;
    }
    if (!begins) continue;
    begins = false;
    if (!out.empty() && out.back() != '-') out += ' ';
    out += c;
    while (i + 1 < given.size() && (static_cast<unsigned char>(given[i + 1]) & 0xC0U) == 0x80U) out += given[++i];
    out += '.';
  }
  return out;
}

struct Name {
  std::string family, given;
};

std::vector<Name> names_at(const Json& entry, const char* role) {
  std::vector<Name> names;
  const auto found = entry.find(role);
  if (found == entry.end() || !found->is_array()) return names;
  for (const Json& person : *found) {
    if (!person.is_object()) continue;
    std::string family = text_at(person, "family");
    const std::string particle = text_at(person, "non-dropping-particle");
    if (!particle.empty()) family.insert(0, particle + " ");
    if (family.empty()) family = text_at(person, "literal");
    names.push_back({std::move(family), text_at(person, "given")});
  }
  return names;
}

std::string year_at(const Json& entry) {
  const auto issued = entry.find("issued");
  if (issued == entry.end() || !issued->is_object()) return {};
  const auto parts = issued->find("date-parts");
  if (parts != issued->end() && parts->is_array() && !parts->empty() && parts->front().is_array() &&
      !parts->front().empty()) {
    const Json& year = parts->front().front();
    return year.is_string() ? year.get<std::string>() : year.dump();
  }
  const std::string literal = text_at(*issued, "literal");
  return literal.empty() ? text_at(*issued, "raw") : literal;
}

std::string list_of(const std::vector<Name>& names) {
  std::string out;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) out += i + 1 == names.size() ? " & " : ", ";
    out += names[i].family;
    if (!names[i].given.empty()) out += ", " + initials(names[i].given);
  }
  return out;
}

void add(std::string& out, const std::string& part, std::string_view before = " ", std::string_view after = "") {
  if (!part.empty()) out += std::string(before) + part + std::string(after);
}

std::string publisher_of(const Json& entry) {
  const std::string place = text_at(entry, "publisher-place");
  const std::string publisher = text_at(entry, "publisher");
  return place.empty() || publisher.empty() ? place + publisher : place + ": " + publisher;
}

/// What comes after the title: journal, volume and pages, or the book, or the publisher.
std::string source_of(const Json& entry) {
  std::string out;
  const std::string container = text_at(entry, "container-title");
  if (!container.empty()) {
    const auto editors = names_at(entry, "editor");
    if (!editors.empty()) out += "In " + list_of(editors) + (editors.size() > 1 ? " (eds), " : " (ed.), ");
    out += container;
    add(out, text_at(entry, "volume"));
    add(out, text_at(entry, "issue"), "(", ")");
    add(out, text_at(entry, "page"), ": ");
  }
  const std::string publisher = publisher_of(entry);
  if (!publisher.empty()) out += (out.empty() ? "" : ". ") + publisher;
  if (const std::string doi = text_at(entry, "DOI"); !doi.empty()) {
    add(out, "https://doi.org/" + doi, out.empty() ? "" : ". ");
  } else if (const std::string url = text_at(entry, "URL"); !url.empty()) {
    add(out, url, out.empty() ? "" : ". ");
  }
  return out;
}

std::string family_at(std::string_view authors, std::size_t index) {
  const auto parts = split(authors, ';');
  if (index >= parts.size()) return {};
  return std::string(trim(split(parts[index], ',').front()));
}

/// Family names first, parted by semicolons.
std::string authors_cell(const Json& entry) {
  auto names = names_at(entry, "author");
  if (names.empty()) names = names_at(entry, "editor");
  std::string out;
  for (const Name& name : names) {
    if (!out.empty()) out += "; ";
    out += name.given.empty() ? name.family : name.family + ", " + name.given;
  }
  return out;
}

std::string with_stop(std::string text) {
  if (!text.empty() && text.back() != '.' && text.back() != '?') text += '.';
  return text;
}

}  // namespace

std::string citation_entry(const PublishedWork& work) {
  const Json entry = Json::parse(work.csl, nullptr, false);
  std::vector<Name> names;
  if (entry.is_object()) {
    names = names_at(entry, "author");
    if (names.empty()) names = names_at(entry, "editor");
  }
  std::string out = names.empty() ? work.authors : list_of(names);
  if (out.empty()) out = work.citation;
  add(out, work.year, " ");
  out = with_stop(std::move(out));
  add(out, with_stop(work.title));
  if (entry.is_object()) {
    const std::string source = source_of(entry);
    if (!source.empty()) add(out, source.find("http") == std::string::npos ? with_stop(source) : source);
  }
  return out;
}

std::string citation_mark(const PublishedWork& work) {
  const auto authors = split(work.authors, ';');
  std::string out = family_at(work.authors, 0);
  if (out.empty()) out = work.citation;
  if (authors.size() == 2) out += " & " + family_at(work.authors, 1);
  if (authors.size() > 2) out += " et al.";
  add(out, work.year);
  return out;
}

void tell_apart(std::vector<PublishedWork>& works, const std::set<std::string>& keys) {
  std::map<std::string, std::vector<PublishedWork*>> alike;
  for (PublishedWork& work : works) {
    if (keys.contains(work.citation) && !work.year.empty()) alike[citation_mark(work)].push_back(&work);
  }
  for (auto& [mark, of_mark] : alike) {
    if (of_mark.size() < 2) continue;
    std::ranges::stable_sort(of_mark, {}, [](const PublishedWork* work) { return work->title; });
    char letter = 'a';
    for (PublishedWork* work : of_mark) {
      work->year += letter;
      if (letter < 'z') ++letter;
    }
  }
}

Result<std::vector<PublishedWork>> citations_from_csl(std::string_view json) {
  const Json document = Json::parse(json, nullptr, false);
  if (document.is_discarded())
    return fail("not_json", "the file is no JSON", "give CSL JSON, or BibTeX ending in .bib");
  const Json& list = document.is_object() && document.contains("items") ? document["items"] : document;
  if (!list.is_array()) return fail("not_csl", "the file is no list of works", "CSL JSON is a list: [{\"id\": ...}]");
  std::vector<PublishedWork> out;
  for (const Json& entry : list) {
    if (!entry.is_object())
      return fail("not_csl", "entry " + std::to_string(out.size() + 1) + " is no work", "each is {\"id\": ...}");
    PublishedWork work;
    work.citation = text_at(entry, "citation-key");
    if (work.citation.empty()) work.citation = text_at(entry, "id");
    work.title = text_at(entry, "title");
    if (work.citation.empty() || work.title.empty())
      return fail("no_key",
                  "entry " + std::to_string(out.size() + 1) + " has no " +
                      (work.citation.empty() ? "id" : "title, " + work.citation),
                  "every work needs both");
    work.type = text_at(entry, "type");
    work.authors = authors_cell(entry);
    work.year = year_at(entry);
    work.csl = entry.dump();
    out.push_back(std::move(work));
  }
  return out;
}

}  // namespace sherd::desk
