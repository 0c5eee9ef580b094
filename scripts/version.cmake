# SPDX-License-Identifier: GPL-3.0-or-later
# Writes the source file that holds the program's version. Runs at every build, changes the file only
# when the version has changed.
#   cmake -D SOURCE=folder -D OUTPUT=file -D VERSION=x.y.z -P version.cmake
# In a git checkout the commit stands behind the number: "0.1.0 (v0.1.0-12-g1a2b3c4)", with "-dirty"
# where tracked files differ from it.
set(text ${VERSION})
string(TIMESTAMP day "%Y-%m-%d" UTC)
find_package(Git QUIET)
if(GIT_FOUND AND EXISTS ${SOURCE}/.git)
  execute_process(COMMAND ${GIT_EXECUTABLE} describe --tags --always --dirty
    WORKING_DIRECTORY ${SOURCE} OUTPUT_VARIABLE commit OUTPUT_STRIP_TRAILING_WHITESPACE
    RESULT_VARIABLE failed ERROR_QUIET)
  execute_process(COMMAND ${GIT_EXECUTABLE} show -s --format=%cs HEAD
    WORKING_DIRECTORY ${SOURCE} OUTPUT_VARIABLE commit_day OUTPUT_STRIP_TRAILING_WHITESPACE ERROR_QUIET)
  if(NOT commit_day STREQUAL "")
    set(day ${commit_day})
  endif()
  if(NOT failed AND NOT commit STREQUAL "" AND NOT commit STREQUAL "v${VERSION}")
    set(text "${VERSION} (${commit})")
  endif()
endif()
set(code "// SPDX-License-Identifier: GPL-3.0-or-later
// Written by scripts/version.cmake.
#include \"cli/version.h\"

namespace felloe {

const char *const version = \"${text}\";
const char *const version_date = \"${day}\";

}  // namespace felloe
")
set(before "")
if(EXISTS ${OUTPUT})
  file(READ ${OUTPUT} before)
endif()
if(NOT before STREQUAL code)
  file(WRITE ${OUTPUT} "${code}")
endif()
