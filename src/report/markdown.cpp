#include "report/markdown.h"

#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>

#include <algorithm>
#include <memory>

namespace sherd::report {

namespace {

constexpr int kFirstHeading = 4;

struct Free {
  void operator()(cmark_parser* parser) const { cmark_parser_free(parser); }
  void operator()(cmark_node* node) const { cmark_node_free(node); }
  void operator()(cmark_iter* iterator) const { cmark_iter_free(iterator); }
};

bool is_safe_address(std::string_view address) {
  return address.starts_with("http://") || address.starts_with("https://") || address.starts_with("mailto:") ||
         address.starts_with("#");
}

/// Its children take its place.
void unwrap(cmark_node* node) {
  while (cmark_node* child = cmark_node_first_child(node)) cmark_node_insert_before(node, child);
  cmark_node_unlink(node);
  cmark_node_free(node);
}

void make_safe(cmark_node* document) {
  const std::unique_ptr<cmark_iter, Free> walk(cmark_iter_new(document));
  for (cmark_event_type event = cmark_iter_next(walk.get()); event != CMARK_EVENT_DONE;
       event = cmark_iter_next(walk.get())) {
    cmark_node* node = cmark_iter_get_node(walk.get());
    const cmark_node_type type = cmark_node_get_type(node);
    if (event == CMARK_EVENT_ENTER && type == CMARK_NODE_HEADING)
      cmark_node_set_heading_level(node, std::min(6, cmark_node_get_heading_level(node) + kFirstHeading - 1));
    if (event != CMARK_EVENT_EXIT) continue;
    if (type == CMARK_NODE_IMAGE) unwrap(node);
    if (type == CMARK_NODE_LINK) {
      const char* address = cmark_node_get_url(node);
      if (address == nullptr || !is_safe_address(address)) unwrap(node);
    }
  }
}

}  // namespace

std::string markdown_html(std::string_view markdown) {
  cmark_gfm_core_extensions_ensure_registered();
  constexpr int kOptions = CMARK_OPT_VALIDATE_UTF8 | CMARK_OPT_FOOTNOTES | CMARK_OPT_STRIKETHROUGH_DOUBLE_TILDE;
  const std::unique_ptr<cmark_parser, Free> parser(cmark_parser_new(kOptions));
  for (const char* name : {"table", "strikethrough"}) {
    if (cmark_syntax_extension* extension = cmark_find_syntax_extension(name))
      cmark_parser_attach_syntax_extension(parser.get(), extension);
  }
  cmark_parser_feed(parser.get(), markdown.data(), markdown.size());
  const std::unique_ptr<cmark_node, Free> document(cmark_parser_finish(parser.get()));
  make_safe(document.get());
  char* html = cmark_render_html(document.get(), kOptions, cmark_parser_get_syntax_extensions(parser.get()));
  std::string out(html);
  cmark_get_default_mem_allocator()->free(html);
  return out;
}

std::string markdown_text(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (std::string_view("\\`*_{}[]()<>#+-.!|~&").find(c) != std::string_view::npos) out += '\\';
    out += c == '\n' ? ' ' : c;
  }
  return out;
}

}  // namespace sherd::report
