target_link_libraries(test_finishes PRIVATE finishes_parts LibXml2::LibXml2)
foreach(needed lathbook plugin_finishes plugin_timeline)
  add_dependencies(test_finishes ${needed})
endforeach()
