# The engine is compiled into the test itself: a plugin exports nothing but its descriptor.
file(GLOB timeline_engine CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/timeline/network*.cpp)
target_sources(test_timeline PRIVATE ${timeline_engine})
