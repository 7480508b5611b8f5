file(GLOB labels_plugin CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/labels/*.cpp)
list(FILTER labels_plugin EXCLUDE REGEX "labels_plugin.cpp$")
target_sources(fuzz_label PRIVATE ${labels_plugin})
target_link_libraries(fuzz_label PRIVATE Boost::headers)
