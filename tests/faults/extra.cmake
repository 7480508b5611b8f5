# The disk that fails on purpose is an SQLite file system, which needs SQLite itself.
target_link_libraries(test_faults PRIVATE SQLite::SQLite3)
if(TARGET lathbook)
  add_dependencies(test_faults lathbook)
endif()
