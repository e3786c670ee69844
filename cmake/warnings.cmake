# One list of warnings for every target of ours; third-party headers come in as SYSTEM.
add_library(sherd_options INTERFACE)
target_compile_options(sherd_options INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion
  -Wnon-virtual-dtor -Wold-style-cast -Woverloaded-virtual -Wformat=2 -Werror)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 reports false positives of these in its own headers once it inlines.
  target_compile_options(sherd_options INTERFACE -Wno-restrict -Wno-maybe-uninitialized -Wno-missing-field-initializers)
else()
  # The library's own stable_sort calls a function that clang finds deprecated.
  target_compile_options(sherd_options INTERFACE -Wno-missing-field-initializers -Wno-missing-designated-field-initializers
    -Wno-deprecated-declarations)
endif()
if(SHERD_SANITIZE)
  target_compile_options(sherd_options INTERFACE -fsanitize=${SHERD_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(sherd_options INTERFACE -fsanitize=${SHERD_SANITIZE})
endif()
# A library that a run never calls is not loaded at its start.
add_link_options(-Wl,--as-needed)
