# SPDX-License-Identifier: MIT
# Installs the build into a fresh prefix, builds the project beside this file against it, runs it.
#   cmake -DBUILD=... -DSOURCE=... -DWORK=... -P run.cmake
file(REMOVE_RECURSE ${WORK})
foreach(step
    "--install;${BUILD};--prefix;${WORK}/prefix"
    "-G;Ninja;-S;${SOURCE}/tests/package;-B;${WORK}/build;-DCMAKE_PREFIX_PATH=${WORK}/prefix"
    "--build;${WORK}/build")
  execute_process(COMMAND ${CMAKE_COMMAND} ${step} RESULT_VARIABLE failed OUTPUT_VARIABLE out
                  ERROR_VARIABLE out)
  if(failed)
    message(FATAL_ERROR "${out}")
  endif()
endforeach()
execute_process(COMMAND ${WORK}/build/uses_linkwright ${SOURCE}/fixtures/vehicles/harbour_van.yaml
                RESULT_VARIABLE failed)
execute_process(COMMAND ${WORK}/prefix/bin/linkwright settle
                        ${SOURCE}/fixtures/vehicles/harbour_van.yaml
                OUTPUT_QUIET RESULT_VARIABLE program_failed)
if(failed OR program_failed)
  message(FATAL_ERROR "the installed package or program does not run: ${failed} ${program_failed}")
endif()
foreach(document man/man1/linkwright.1 bash-completion/completions/linkwright
        zsh/site-functions/_linkwright fish/vendor_completions.d/linkwright.fish)
  if(NOT EXISTS ${WORK}/prefix/share/${document})
    message(FATAL_ERROR "${document} is not installed")
  endif()
endforeach()
