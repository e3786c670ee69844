#include "figure/qr.h"

#include <qrencode.h>

#include <memory>
#include <string>

namespace sherd::figure {
namespace {

constexpr std::size_t kLongest = 300;

struct Free {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

Result<QrCode> qr_code(std::string_view text) {
  if (text.empty() || text.size() > kLongest)
    return fail("code_too_long", "a label's code holds 1 to 300 bytes", "shorten the number that it stands for");
  const std::unique_ptr<QRcode, Free> code(QRcode_encodeString8bit(std::string(text).c_str(), 0, QR_ECLEVEL_M));
  if (!code || code->width <= 0)
    return fail(ErrorKind::internal, "picture_failed", "The code of a label could not be made.");
  QrCode out;
  out.side = static_cast<std::size_t>(code->width);
  for (std::size_t i = 0; i < out.side * out.side; ++i) out.dark.push_back((code->data[i] & 1U) != 0);
  return out;
}

}  // namespace sherd::figure
