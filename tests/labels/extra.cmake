target_link_libraries(test_labels PRIVATE labels_parts)
foreach(needed lathbook plugin_labels)
  add_dependencies(test_labels ${needed})
endforeach()
