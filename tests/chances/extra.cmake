target_link_libraries(test_chances PRIVATE chances_parts)
# Some tests run the program of this build on small archives.
target_sources(test_chances PRIVATE ${PROJECT_SOURCE_DIR}/tests/acceptance/house.cpp)
target_link_libraries(test_chances PRIVATE SQLite::SQLite3)
add_dependencies(test_chances lathbook plugin_timeline plugin_chances)
