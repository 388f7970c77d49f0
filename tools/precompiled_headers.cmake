# With -D SPADEWORK_PRECOMPILE=ON, the headers that sources include most are compiled once for all targets that are
# compiled with the same options. A source that lacks an include does not tell then: builds without it do.

set(library_headers <algorithm> <array> <cmath> <cstdint> <functional> <limits> <map> <memory> <numeric> <optional> <set>
                    <span> <string> <string_view> <tuple> <utility> <vector> <fmt/format.h>)
set(test_headers ${library_headers} <fstream> <random> <sstream> <doctest/doctest.h> <nlohmann/json.hpp>)

# spadework_precompile(TARGET HEADERS…)  To be called once all options of the target are set.
function(spadework_precompile target)
  if(NOT SPADEWORK_PRECOMPILE)
    return()
  endif()
  get_target_property(options ${target} COMPILE_OPTIONS)
  if(NOT options)
    set(options "")
  endif()
  string(SHA1 alike "${options} ${ARGN}")
  string(SUBSTRING ${alike} 0 8 alike)
  set(owner precompiled_${alike})
  if(NOT TARGET ${owner})
    file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/${owner}.cpp CONTENT "namespace spadework {}\n")
    add_library(${owner} OBJECT ${PROJECT_BINARY_DIR}/${owner}.cpp)
    # Without times the same headers make the same bytes, and ccache knows what was compiled with them.
    target_compile_options(${owner} PRIVATE ${options} "SHELL:-Xclang -fno-pch-timestamp")
    target_link_libraries(${owner} PRIVATE spadework_build_flags fmt::fmt)
    target_precompile_headers(${owner} PRIVATE ${ARGN})
  endif()
  target_precompile_headers(${target} REUSE_FROM ${owner})
endfunction()
