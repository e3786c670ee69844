# sherd_embed(TARGET NAMESPACE name=path ...): each file's bytes as `extern const std::string_view name` in NAMESPACE,
# so that the program needs no folder beside it. The header is <TARGET>_data.h in the build folder.
function(sherd_embed TARGET NAMESPACE)
  set(dir ${CMAKE_CURRENT_BINARY_DIR}/embedded)
  set(header ${dir}/${TARGET}_data.h)
  set(declarations "")
  foreach(pair ${ARGN})
    string(REGEX MATCH "^([^=]+)=(.+)$" _ ${pair})
    set(name ${CMAKE_MATCH_1})
    set(path ${CMAKE_SOURCE_DIR}/${CMAKE_MATCH_2})
    set(output ${dir}/${name}.cpp)
    add_custom_command(OUTPUT ${output}
      COMMAND ${CMAKE_COMMAND} -DINPUT=${path} -DOUTPUT=${output} -DNAMESPACE=${NAMESPACE} -DNAME=${name}
              -P ${CMAKE_SOURCE_DIR}/cmake/embed_file.cmake
      DEPENDS ${path} ${CMAKE_SOURCE_DIR}/cmake/embed_file.cmake VERBATIM)
    target_sources(${TARGET} PRIVATE ${output})
    string(APPEND declarations "extern const std::string_view ${name};\n")
  endforeach()
  file(CONFIGURE OUTPUT ${header} CONTENT "#pragma once\n#include <string_view>\nnamespace ${NAMESPACE} {\n${declarations}}\n" @ONLY)
  target_include_directories(${TARGET} PRIVATE ${dir})
endfunction()

# sherd_embed_folder(TARGET NAMESPACE NAME folder): every file below the folder as `extern const std::span<const EmbeddedFile>
# NAME`, in <NAME>_folder.h. A folder that is not there gives an empty list.
function(sherd_embed_folder TARGET NAMESPACE NAME FOLDER)
  set(dir ${CMAKE_CURRENT_BINARY_DIR}/embedded)
  set(output ${dir}/${NAME}.cpp)
  set(path ${CMAKE_SOURCE_DIR}/${FOLDER})
  file(GLOB_RECURSE files CONFIGURE_DEPENDS ${path}/*)
  add_custom_command(OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DFOLDER=${path} -DOUTPUT=${output} -DNAMESPACE=${NAMESPACE} -DNAME=${NAME}
            -P ${CMAKE_SOURCE_DIR}/cmake/embed_folder.cmake
    DEPENDS ${files} ${CMAKE_SOURCE_DIR}/cmake/embed_folder.cmake VERBATIM)
  target_sources(${TARGET} PRIVATE ${output})
  file(CONFIGURE OUTPUT ${dir}/${NAME}_folder.h @ONLY CONTENT
"#pragma once\n#include <span>\n#include <string_view>\nnamespace ${NAMESPACE} {\nstruct EmbeddedFile {\n  std::string_view path, bytes;\n};\nextern const std::span<const EmbeddedFile> ${NAME};\n}\n")
  target_include_directories(${TARGET} PRIVATE ${dir})
endfunction()
