# These tests run the program of this build, its plugins included; some damage databases on purpose.
target_link_libraries(test_acceptance PRIVATE SQLite::SQLite3)
foreach(needed lathbook plugin_timeline plugin_sheet plugin_crm)
  if(TARGET ${needed})
    add_dependencies(test_acceptance ${needed})
  endif()
endforeach()
