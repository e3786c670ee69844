# What users run. The same bytes whatever folder it is built in: no path of the sources or of the build gets into the program
# (tools/check_reproducible). Hardened as Debian hardens its own: guarded stacks, checked copies, addresses fixed before it runs.
add_compile_options(
  "$<$<CONFIG:Release>:-ffile-prefix-map=${CMAKE_BINARY_DIR}=build>"
  "$<$<CONFIG:Release>:-ffile-prefix-map=${CMAKE_SOURCE_DIR}=.>"
  "$<$<CONFIG:Release>:-fstack-protector-strong>" "$<$<CONFIG:Release>:-D_FORTIFY_SOURCE=2>")
add_link_options("$<$<CONFIG:Release>:-Wl,-z,relro,-z,now>")
