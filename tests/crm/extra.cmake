target_link_libraries(test_crm PRIVATE crm_parts)
# The random archives go through the plugins as the program loads them.
foreach(needed lathbook plugin_timeline plugin_crm)
  if(TARGET ${needed})
    add_dependencies(test_crm ${needed})
  endif()
endforeach()
