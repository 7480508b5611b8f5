# The plugin is compiled into the test itself: it exports nothing but its descriptor.
file(GLOB timeline_plugin CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/timeline/*.cpp)
list(FILTER timeline_plugin EXCLUDE REGEX "timeline_plugin.cpp$")
target_sources(test_timeline_plugin PRIVATE ${timeline_plugin})
add_dependencies(test_timeline_plugin plugin_timeline)
