# The plugin is compiled into the test itself: it exports nothing but its descriptor.
file(GLOB chances_plugin CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/chances/*.cpp)
list(FILTER chances_plugin EXCLUDE REGEX "chances_plugin.cpp$")
target_sources(test_chances PRIVATE ${chances_plugin})
target_link_libraries(test_chances PRIVATE Boost::headers)
# Some tests run the program of this build on small archives.
target_sources(test_chances PRIVATE ${PROJECT_SOURCE_DIR}/tests/acceptance/house.cpp)
target_link_libraries(test_chances PRIVATE SQLite::SQLite3)
add_dependencies(test_chances lathbook plugin_timeline plugin_chances)
