# These tests run the program of this build, its plugins included; some damage databases on purpose.
target_link_libraries(test_acceptance PRIVATE SQLite::SQLite3)
foreach(needed lathbook plugin_timeline plugin_sheet plugin_marks plugin_crm plugin_citations
        plugin_lido plugin_bag plugin_dublin-core plugin_tables plugin_iiif plugin_labels
        plugin_pieces plugin_takedown plugin_lifting plugin_placing)
  if(TARGET ${needed})
    add_dependencies(test_acceptance ${needed})
  endif()
endforeach()
