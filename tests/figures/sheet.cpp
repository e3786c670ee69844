#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "figure/render.h"
#include "samples.h"

// figure_sheet approve FOLDER STYLESHEET: writes the samples as the approved files, and the page's stylesheet.
// figure_sheet contact FOLDER: writes contact.html and a PNG of each sample in print, light and dark, and its PDF.
namespace {

namespace fs = std::filesystem;
using namespace sherd::figure;

bool write(const fs::path& path, std::string_view bytes) {
  std::ofstream file(path, std::ios::binary);
  file << bytes;
  file.close();
  if (!file) std::fprintf(stderr, "%s cannot be written.\n", path.c_str());
  return static_cast<bool>(file);
}

int approve(const fs::path& folder, const fs::path& css) {
  for (const auto& old : fs::directory_iterator(folder)) {
    if (old.path().extension() == ".svg") fs::remove(old.path());
  }
  bool good = write(css, page_stylesheet());
  for (const Sample& sample : samples()) good = write(folder / (sample.name + ".svg"), sample.svg) && good;
  return good ? 0 : 1;
}

bool render(const Sample& sample, const fs::path& folder) {
  const auto pdf = to_pdf(sample.svg, {sample.name});
  if (!pdf) return std::fprintf(stderr, "%s: %s\n", sample.name.c_str(), pdf.error().message.c_str()), false;
  if (!write(folder / (sample.name + ".pdf"), *pdf)) return false;
  constexpr std::string_view kSchemes[] = {"print", "light", "dark"};
  for (const Scheme scheme : {Scheme::print, Scheme::light, Scheme::dark}) {
    const auto png = to_png(sample.svg, {200, scheme});
    if (!png) return std::fprintf(stderr, "%s: %s\n", sample.name.c_str(), png.error().message.c_str()), false;
    const std::string name = sample.name + "-" + std::string(kSchemes[static_cast<std::size_t>(scheme)]) + ".png";
    if (!write(folder / name, *png)) return false;
  }
  return true;
}

int contact(const fs::path& folder) {
  fs::create_directories(folder);
  std::string html =
      "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Figures</title>"
      "<style>body{font:15px Inter,sans-serif;margin:24px}img{margin:8px;vertical-align:top}</style><h1>Figures</h1>\n";
  bool good = true;
  for (const Sample& sample : samples()) {
    good = render(sample, folder) && good;
    html += "<h2>" + sample.name + "</h2>\n";
    for (const char* scheme : {"print", "light", "dark"}) {
      html += "<img src=\"" + sample.name + "-" + scheme + ".png\" alt=\"" + sample.name + ", " + scheme +
              "\" style=\"width:48%\">\n";
    }
  }
  return write(folder / "contact.html", html) && good ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view what = argc > 1 ? argv[1] : "";
  if (what == "approve" && argc == 4) return approve(argv[2], argv[3]);
  if (what == "contact" && argc == 3) return contact(argv[2]);
  std::fputs("Usage: figure_sheet approve FOLDER STYLESHEET | figure_sheet contact FOLDER\n", stderr);
  return 2;
}
