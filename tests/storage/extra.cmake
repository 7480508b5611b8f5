# Tests damage databases on purpose, which needs SQLite itself.
target_link_libraries(test_storage PRIVATE SQLite::SQLite3)
