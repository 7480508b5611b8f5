# The plugin is compiled into the test itself: it exports nothing but its descriptor.
file(GLOB sequence_plugin CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/sequence/*.cpp)
list(FILTER sequence_plugin EXCLUDE REGEX "sequence_plugin.cpp$")
target_sources(test_sequence PRIVATE ${sequence_plugin})
target_link_libraries(test_sequence PRIVATE PkgConfig::GRAPHVIZ ${LATHBOOK_DOT_LAYOUT} LibXml2::LibXml2)
# Some tests run the program of this build on small archives.
target_sources(test_sequence PRIVATE ${PROJECT_SOURCE_DIR}/tests/acceptance/house.cpp)
target_link_libraries(test_sequence PRIVATE SQLite::SQLite3)
add_dependencies(test_sequence lathbook plugin_timeline plugin_sequence)
