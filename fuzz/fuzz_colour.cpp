#include <cstddef>
#include <cstdint>
#include <string_view>

#include "notation/firing.h"
#include "notation/munsell.h"
#include "notation/scale.h"
#include "reference/tables.h"

/// A colour, a firing or a grade as somebody might write it.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace sherd;
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  if (const auto colour = notation::read_colour(text, reference::munsell())) {
    const auto again = notation::read_colour(notation::munsell_text(colour->from), reference::munsell());
    if (!again || !(again->from == colour->from)) __builtin_trap();
  }
  if (const auto firing = notation::read_firing(text)) {
    const auto again = notation::read_firing(firing->words);
    if (!again || again->zones != firing->zones) __builtin_trap();
  }
  for (const Attribute attribute :
       {Attribute::size, Attribute::rounding, Attribute::sorting, Attribute::frequency, Attribute::hardness}) {
    const auto grade = notation::read_scale(attribute, text, "", "", reference::scales());
    if (grade && grade->words.empty()) __builtin_trap();
  }
  return 0;
}
