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

}  // namespace sherd
