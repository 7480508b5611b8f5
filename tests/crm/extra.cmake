# The exporter is compiled into the test itself: a plugin exports nothing but its descriptor.
find_package(PkgConfig REQUIRED)
pkg_check_modules(SERD REQUIRED IMPORTED_TARGET serd-0)
file(GLOB crm_exporter CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/crm/*.cpp)
list(FILTER crm_exporter EXCLUDE REGEX crm_plugin)
target_sources(test_crm PRIVATE ${crm_exporter})
target_link_libraries(test_crm PRIVATE PkgConfig::SERD)
# The random archives go through the plugins as the program loads them.
foreach(needed lathbook plugin_timeline plugin_crm)
  if(TARGET ${needed})
    add_dependencies(test_crm ${needed})
  endif()
endforeach()
