# These tests look into the report's tree, run the program, and hand what it writes to other people's programs.
target_link_libraries(test_report PRIVATE report_parts timeline_parts finishes_parts LibXml2::LibXml2)
foreach(needed lathbook plugin_timeline plugin_finishes plugin_report)
  add_dependencies(test_report ${needed})
endforeach()
