#include "desk/report/convert_report.h"

#include <chrono>
#include <vector>

#include "base/text.h"
#include "exchange/word_pictures.h"
#include "figure/render.h"
#include "sherd_desk_data.h"

namespace sherd::desk {

namespace {

constexpr ChildLimit kLimit{.time = std::chrono::minutes(10), .memory_bytes = std::size_t{4} << 30};
/// Of addresses, most of which pandoc reserves before it begins; what it then uses it limits itself.
constexpr ChildLimit kPandocLimit{.time = kLimit.time, .memory_bytes = std::size_t{12} << 30};
constexpr const char* kPandocHeap = "-M3g";

/// Debian's own Python has Debian's WeasyPrint; another one on the PATH has not.
constexpr const char* kPython = "/usr/bin/python3";
constexpr const char* kPrint = R"(
import sys, logging
try:
    import weasyprint
except ImportError:
    sys.exit(77)
logging.disable(logging.CRITICAL)
def fetch(url, *args, **kwargs):
    if url.startswith("data:"):
        return weasyprint.default_url_fetcher(url, *args, **kwargs)
    raise ValueError("only data: addresses are fetched")
page = weasyprint.HTML(string=sys.stdin.buffer.read().decode("utf-8"), url_fetcher=fetch)
sys.stdout.buffer.write(page.write_pdf())
)";
constexpr int kNoModule = 77;
constexpr double kDotsPerInch = 200;  ///< of what a word processor without SVG shows

std::unexpected<Error> no_pandoc() {
  return fail("no_pandoc", "pandoc, which makes this format, is not installed",
              "install it, on Debian with: apt install pandoc; HTML needs no other program");
}
std::unexpected<Error> no_weasyprint() {
  return fail("no_weasyprint", "WeasyPrint, which prints to PDF, is not installed",
              "install it, on Debian with: apt install weasyprint; or print the HTML from a browser");
}

std::unexpected<Error> not_converted(const std::string& program, const ChildOutput& output) {
  const std::string said = shortened(std::string(trim(output.err)), 300);
  return fail("not_converted", program + " could not make the file" + (said.empty() ? std::string() : ": " + said),
              "write HTML meanwhile; that needs no other program");
}

/// The page with its fonts under names that no installed font has. WeasyPrint takes two fonts of one name and weight
/// for one, and where "EB Garamond" is installed beside ours it printed glyphs of the other: an A for a bullet.
std::string with_fonts_of_its_own(const std::string& html) {
  const std::size_t styles = html.find("</style>");
  std::string head = html.substr(0, styles);
  std::string body = styles == std::string::npos ? std::string() : html.substr(styles);
  for (const auto& [from, to] : {std::pair(R"("EB Garamond")", R"("Sherd Serif")"),
                                 {R"("Inter")", R"("Sherd Sans")"},
                                 {" Inter,", R"( "Sherd Sans",)"}})
    head = replace_all(std::move(head), from, to);
  for (const auto& [from, to] : {std::pair(R"(font-family="EB Garamond,)", R"(font-family="Sherd Serif,)"),
                                 {R"(font-family="Inter,)", R"(font-family="Sherd Sans,)"}})
    body = replace_all(std::move(body), from, to);
  return head + body;
}

/// The heading of a group of rows with the first of them in a body of their own, which no page break parts.
std::string with_heads_kept(const std::string& html) {
  constexpr std::string_view kBody = "<tbody>\n", kHead = "<tr class=\"group\">", kEnd = "</tr>\n";
  std::string out;
  std::size_t done = 0;
  for (std::size_t at = 0; (at = html.find(kHead, at)) != std::string::npos;) {
    const std::size_t first = html.find(kEnd, at);
    const std::size_t second = first == std::string::npos ? first : html.find(kEnd, first + kEnd.size());
    const bool begins = at >= kBody.size() && html.compare(at - kBody.size(), kBody.size(), kBody) == 0;
    if (!begins || second == std::string::npos) break;
    out += html.substr(done, at - kBody.size() - done) + "<tbody class=\"begin\">\n";
    out += html.substr(at, second + kEnd.size() - at);
    done = at = second + kEnd.size();
    if (html.compare(at, 8, "</tbody>") != 0) out += "</tbody>\n<tbody>\n";
  }
  return out + html.substr(done);
}

/// A file of ours that another program has to read, gone again with this.
class PassingFile {
 public:
  PassingFile(Environment& environment, std::string_view ending)
      : files_(*environment.files), path_("/tmp/sherdwright-" + environment.new_uid() + std::string(ending)) {}
  PassingFile(const PassingFile&) = delete;
  PassingFile& operator=(const PassingFile&) = delete;
  ~PassingFile() {
    if (files_.exists(path_)) static_cast<void>(files_.remove(path_));
  }
  Result<void> write(std::string_view bytes) { return files_.write_private(path_, bytes); }
  const std::string& path() const { return path_; }

 private:
  Files& files_;
  std::string path_;
};

}  // namespace

Result<std::string> docx_of(const std::string& html, Environment& environment, Progress& progress) {
  PassingFile styles(environment, ".docx");
  SHERD_CHECK(styles.write(report_styles_docx));
  const std::vector<std::string> command{"pandoc",      "+RTS",      kPandocHeap, "-RTS",
                                         "--from=html", "--to=docx", "--dpi=300", "--reference-doc=" + styles.path(),
                                         "--output=-"};
  const auto output = environment.processes->run(command, html, kPandocLimit, progress);
  if (!output && output.error().code == "no_program") return no_pandoc();
  if (!output) return std::unexpected(output.error());
  if (!output->succeeded() || output->out.empty()) return not_converted("pandoc", *output);
  return exchange::with_png_beside_svg(
      output->out, [](std::string_view svg) { return figure::to_png(svg, {kDotsPerInch, figure::Scheme::print}); });
}

Result<std::string> pdf_of(const std::string& html, Environment& environment, Progress& progress) {
  const std::vector<std::string> command{kPython, "-I", "-c", kPrint};
  const auto output =
      environment.processes->run(command, with_heads_kept(with_fonts_of_its_own(html)), kLimit, progress);
  if (!output && output.error().code == "no_program") return no_weasyprint();
  if (!output) return std::unexpected(output.error());
  if (output->exit_code == kNoModule) return no_weasyprint();
  if (!output->succeeded() || !output->out.starts_with("%PDF")) return not_converted("WeasyPrint", *output);
  return output->out;
}

Result<std::string> csl_of_bibtex(const std::string& bibtex, Environment& environment, Progress& progress) {
  const std::vector<std::string> command{"pandoc",    "+RTS",          kPandocHeap,   "-RTS",
                                         "--sandbox", "--from=bibtex", "--to=csljson"};
  const auto output = environment.processes->run(command, bibtex, kPandocLimit, progress);
  if (!output && output.error().code == "no_program") return no_pandoc();
  if (!output) return std::unexpected(output.error());
  if (output->succeeded()) return output->out;
  return fail("not_bibtex", "the file is no BibTeX that can be read: " + shortened(std::string(trim(output->err)), 300),
              "mend the entry named, or give CSL JSON");
}

}  // namespace sherd::desk
