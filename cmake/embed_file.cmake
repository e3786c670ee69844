# Turns INPUT into a source file that defines NAMESPACE::NAME.
file(READ ${INPUT} hex HEX)
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "'\\\\x\\1'," bytes "${hex}")
file(WRITE ${OUTPUT} "#include <string_view>\nnamespace ${NAMESPACE} {\nextern const std::string_view ${NAME};\n"
  "static constexpr char bytes[] = {${bytes}'\\0'};\n"
  "const std::string_view ${NAME}{bytes, sizeof bytes - 1};\n}  // namespace ${NAMESPACE}\n")
