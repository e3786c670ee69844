#include "base/base64.h"

#include <sodium/utils.h>

namespace sherd {

std::string base64(std::string_view bytes) {
  constexpr int kVariant = sodium_base64_VARIANT_ORIGINAL;
  std::string out(sodium_base64_encoded_len(bytes.size(), kVariant), '\0');
  sodium_bin2base64(out.data(), out.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                    kVariant);
  out.pop_back();  // the terminating NUL
  return out;
}

Result<std::string> base64_decoded(std::string_view text) {
  std::string out(text.size() / 4 * 3 + 3, '\0');
  std::size_t size = 0;
  const int failed = sodium_base642bin(reinterpret_cast<unsigned char*>(out.data()), out.size(), text.data(),
                                       text.size(), nullptr, &size, nullptr, sodium_base64_VARIANT_ORIGINAL);
  if (failed != 0) return fail("bad_base64", "the bytes are not written in base64");
  out.resize(size);
  return out;
}

}  // namespace sherd
