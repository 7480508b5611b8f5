# The plugin is compiled into the test itself: it exports nothing but its descriptor.
file(GLOB labels_plugin CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/labels/*.cpp)
list(FILTER labels_plugin EXCLUDE REGEX "labels_plugin.cpp$")
target_sources(test_labels PRIVATE ${labels_plugin})
target_link_libraries(test_labels PRIVATE Boost::headers)
foreach(needed lathbook plugin_labels)
  add_dependencies(test_labels ${needed})
endforeach()
