target_link_libraries(test_sequence PRIVATE sequence_parts LibXml2::LibXml2)
# Some tests run the program of this build on small archives.
target_sources(test_sequence PRIVATE ${PROJECT_SOURCE_DIR}/tests/acceptance/house.cpp)
target_link_libraries(test_sequence PRIVATE SQLite::SQLite3)
add_dependencies(test_sequence lathbook plugin_timeline plugin_sequence)
