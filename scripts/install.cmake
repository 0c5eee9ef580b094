# SPDX-License-Identifier: GPL-3.0-or-later
# What 'cmake --install' puts on a system, and the Debian package made of it. Only the program is
# installed: its libraries are its own. More files of the program go into share/felloe: one install()
# more with COMPONENT program.
include(GNUInstallDirs)
set(CMAKE_SKIP_INSTALL_ALL_DEPENDENCY ON)  # packing builds nothing, least of all the tests
set(doc_folder ${CMAKE_INSTALL_DATADIR}/doc/felloe)
set(made ${CMAKE_BINARY_DIR}/installed)
file(MAKE_DIRECTORY ${made})

# Man page and completion come from the program itself; Debian wants the page packed, and a changelog of
# the package, packed too, in its own format.
# -n: no time in the file, so that equal sources give equal packages.
add_custom_command(OUTPUT ${made}/felloe.1.gz ${made}/felloe.bash DEPENDS felloe
  COMMAND felloe list manual > ${made}/felloe.1
  COMMAND gzip -9nf ${made}/felloe.1
  COMMAND felloe list completion > ${made}/felloe.bash
  COMMENT "Man page and completion" VERBATIM)
configure_file(scripts/debian_changelog.in ${made}/changelog @ONLY)
add_custom_command(OUTPUT ${made}/changelog.gz DEPENDS ${made}/changelog
  COMMAND gzip -9nc ${made}/changelog > ${made}/changelog.gz VERBATIM)
add_custom_target(felloe_manual ALL DEPENDS ${made}/felloe.1.gz ${made}/felloe.bash ${made}/changelog.gz)

install(TARGETS felloe RUNTIME COMPONENT program)
install(FILES ${made}/felloe.1.gz DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${made}/felloe.bash DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions
  RENAME felloe COMPONENT program)
install(FILES README.md CHANGELOG.md CITATION.cff ${made}/changelog.gz DESTINATION ${doc_folder} COMPONENT program)
install(FILES scripts/debian_copyright DESTINATION ${doc_folder} RENAME copyright COMPONENT program)
install(DIRECTORY cases/ DESTINATION ${doc_folder}/examples COMPONENT program
  FILES_MATCHING PATTERN "*.toml" PATTERN "*.csv" PATTERN "*.md")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME felloe)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_MAINTAINER "felloe maintainers <maintainers@felloe.invalid>")
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "stress and fatigue life of wheel discs
felloe tells whether a wheel disc survives its rig tests: it meshes the wheel
of a case file, solves clamp, press fit, inflation, radial load and cornering
moment for every angle of one turn, rates the stresses in cycles to crack and
says pass or fail against the rotating-bending and radial rig tests.

Calculation never replaces tests: only physical tests by an accredited
laboratory decide release.")
# Linked libraries are found by dpkg-shlibdeps. Named here is what the program starts or opens when it
# runs: fonts for the pictures, and a fast BLAS in place of the slow default one.
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS "fonts-dejavu-core, libopenblas0-pthread")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "openmpi-bin")
include(CPack)
