# The work of the plugin is compiled into the test itself: a plugin exports nothing but its descriptor.
file(GLOB takedown_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/takedown/*.cpp)
list(FILTER takedown_sources EXCLUDE REGEX "takedown_plugin")
target_sources(test_takedown PRIVATE ${takedown_sources})
