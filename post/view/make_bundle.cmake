# Fetches the packages of the lock file into the folder of OUTPUT and bundles the view there.
# cmake -D NODE=... -D NPM=... -D SOURCE=post/view -D OUTPUT=....cc -P make_bundle.cmake
get_filename_component(folder ${OUTPUT} DIRECTORY)

function(run_or_do_without)
  execute_process(COMMAND ${ARGN} WORKING_DIRECTORY ${folder}
    RESULT_VARIABLE failed OUTPUT_VARIABLE said ERROR_VARIABLE said)
  if(failed)
    file(COPY_FILE ${SOURCE}/no_bundle.cc ${OUTPUT})
    file(TOUCH_NOCREATE ${OUTPUT})
    list(JOIN ARGN " " command)
    message(WARNING "report.html will have no view that turns: '${command}' failed:\n${said}\n"
      "To try again, delete ${OUTPUT} and build.")
    set(given_up TRUE PARENT_SCOPE)
  endif()
endfunction()

set(given_up FALSE)
if(${SOURCE}/package-lock.json IS_NEWER_THAN ${folder}/node_modules/.package-lock.json)
  foreach(file package.json package-lock.json .npmrc)
    file(COPY_FILE ${SOURCE}/${file} ${folder}/${file})
  endforeach()
  run_or_do_without(${NPM} ci --ignore-scripts)
endif()
if(NOT given_up)
  run_or_do_without(${NODE} ${SOURCE}/bundle.mjs ${OUTPUT})
endif()
