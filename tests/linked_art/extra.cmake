# The exporter is loaded as the program loads it.
foreach(needed lathbook plugin_linked-art)
  if(TARGET ${needed})
    add_dependencies(test_linked_art ${needed})
  endif()
endforeach()
