#include "figure/font_setup.h"

#include <fontconfig/fontconfig.h>
#include <sys/mman.h>
#include <unistd.h>

#include <string>

#include "figure/fonts.h"

#if defined(__SANITIZE_ADDRESS__)
// The libraries for fonts keep what they found until the process ends, and lose sight of it then; it does not grow with
// the number of pictures.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig.so"; }
extern "C" const char* __lsan_default_options();
extern "C" const char* __lsan_default_options() { return "print_suppressions=0"; }
#endif

namespace sherd::figure {
namespace {

Error unusable(std::string_view what) {
  return {ErrorKind::internal,
          "fonts_unusable",
          "The fonts of figures cannot be used: " + std::string(what) + ".",
          {},
          "figures as SVG need no fonts and still work"};
}

// The library knows fonts by path only; the path leads to memory of this process, so that nothing is left on the disk.
// The file stays open, since a font is read again when it is drawn with.
Result<std::string> path_of(const FontFile& font) {
  const int file = memfd_create(std::string(font.file_name).c_str(), MFD_CLOEXEC);
  if (file < 0) return fail(unusable("no memory for " + std::string(font.file_name)));
  for (std::size_t done = 0; done < font.bytes.size();) {
    const ssize_t written = write(file, font.bytes.data() + done, font.bytes.size() - done);
    if (written <= 0) {
      close(file);
      return fail(unusable("no memory for " + std::string(font.file_name)));
    }
    done += static_cast<std::size_t>(written);
  }
  return "/proc/self/fd/" + std::to_string(file);
}

Result<void> set_up() {
  FcConfig* config = FcConfigCreate();  // knows no folder of the machine
  if (!config) return fail(unusable("the font library did not start"));
  for (const FontFile& font : font_files()) {
    SHERD_TRY(const std::string path, path_of(font));
    if (!FcConfigAppFontAddFile(config, reinterpret_cast<const FcChar8*>(path.c_str()))) {
      FcConfigDestroy(config);
      return fail(unusable(std::string(font.file_name) + " was refused"));
    }
  }
  const bool set = FcConfigSetCurrent(config) == FcTrue;
  FcConfigDestroy(config);  // the library keeps its own reference
  if (!set) return fail(unusable("the font library refused them"));
  return {};
}

}  // namespace

Result<void> use_shipped_fonts() {
  static const Result<void> kDone = set_up();
  return kDone;
}

}  // namespace sherd::figure
