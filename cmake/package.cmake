# What an installed program consists of, and the .deb of it (tools/package). Manual page and completions are made by the program.
option(SHERD_PACKAGE "make what a package holds beside the program" OFF)
if(NOT SHERD_PACKAGE)
  return()
endif()
include(GNUInstallDirs)
set(CMAKE_SKIP_INSTALL_ALL_DEPENDENCY ON)
set(made ${CMAKE_BINARY_DIR}/package_files)
set(from ${CMAKE_SOURCE_DIR}/packaging)

# sherd_made(FILE WORDS...): what `sherdwright reference WORDS` says, in FILE.
function(sherd_made FILE)
  add_custom_command(OUTPUT ${made}/${FILE}
    COMMAND ${CMAKE_COMMAND} -E make_directory ${made}
    COMMAND sherdwright reference ${ARGN} > ${made}/${FILE}
    DEPENDS sherdwright VERBATIM)
endfunction()
sherd_made(sherdwright.1 --man)
sherd_made(sherdwright.bash --bash)
sherd_made(_sherdwright --zsh)
sherd_made(sherdwright.fish --fish)
# Debian's changelog of the package: one entry, this version's.
add_custom_command(OUTPUT ${made}/packed
  COMMAND sh ${from}/pack ${CMAKE_SOURCE_DIR} ${made} ${PROJECT_VERSION}
  DEPENDS ${from}/pack ${made}/sherdwright.1 ${CMAKE_SOURCE_DIR}/CHANGELOG.md VERBATIM)
add_custom_target(package_files ALL DEPENDS sherdwright ${made}/packed ${made}/sherdwright.bash ${made}/_sherdwright ${made}/sherdwright.fish)

install(TARGETS sherdwright RUNTIME DESTINATION bin)
install(FILES ${made}/sherdwright.1.gz DESTINATION share/man/man1)
install(FILES ${made}/sherdwright.bash DESTINATION share/bash-completion/completions RENAME sherdwright)
install(FILES ${made}/_sherdwright DESTINATION share/zsh/vendor-completions)
install(FILES ${made}/sherdwright.fish DESTINATION share/fish/vendor_completions.d)
install(FILES ${from}/sherdwright.desktop DESTINATION share/applications)
install(FILES ${from}/sherdwright-mime.xml DESTINATION share/mime/packages RENAME sherdwright.xml)
install(FILES ${from}/sherdwright.svg DESTINATION share/icons/hicolor/scalable/apps)
install(FILES ${from}/sherdwright-store.svg DESTINATION share/icons/hicolor/scalable/mimetypes RENAME application-x-sherdwright-store.svg)
install(FILES ${from}/sherdwright.service DESTINATION lib/systemd/system)
install(FILES ${from}/sherdwright.sysusers DESTINATION lib/sysusers.d RENAME sherdwright.conf)
install(FILES ${from}/sherdwright.tmpfiles DESTINATION lib/tmpfiles.d RENAME sherdwright.conf)
install(FILES ${from}/team.conf DESTINATION /etc/sherdwright)
install(FILES ${from}/copyright ${made}/changelog.gz ${made}/NEWS.gz ${made}/sherdwright.spdx.json ${CMAKE_SOURCE_DIR}/README.md
  DESTINATION share/doc/sherdwright)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/docs/ DESTINATION share/doc/sherdwright FILES_MATCHING PATTERN "*.md" PATTERN "*.png" PATTERN "*.csv" PATTERN "*.map.json"
  PATTERN design EXCLUDE)
install(DIRECTORY ${CMAKE_SOURCE_DIR}/web/dist/licences DESTINATION share/doc/sherdwright)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME sherdwright)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_VENDOR "Sherdwright")
set(CPACK_PACKAGE_CONTACT "The people of Sherdwright <sherdwright@localhost>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "records, counts, dates and publishes archaeological pottery")
set(CPACK_PACKAGE_DESCRIPTION "Takes in what the field recorded of a site's pottery, shows what is wrong
with it, counts it by the four measures (sherds, weight, vessels, EVE), and
gives every context a first date with its reasons; draws vessels, compares
assemblages, reads compositions, writes the report and hands the record over.
.
It runs on one's own machine without a network, in the terminal and in a
browser; or as a team's server, with accounts.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)
set(CPACK_OUTPUT_FILE_PREFIX ${CMAKE_SOURCE_DIR}/build/package)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# The programs that it starts: the diagram's always; those of reports as DOCX and PDF unless somebody leaves them out.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "graphviz")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "pandoc, weasyprint, xdg-utils")
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "postgresql, bash-completion")
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
file(WRITE ${made}/conffiles "/etc/sherdwright/team.conf\n")
set(CPACK_DEBIAN_PACKAGE_CONTROL_EXTRA "${from}/postinst;${from}/prerm;${from}/postrm;${made}/conffiles")
include(CPack)
