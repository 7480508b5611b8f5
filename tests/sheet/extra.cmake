# The report is compiled into the test itself: a plugin exports nothing but its descriptor.
file(GLOB sheet_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/sheet/*.cpp)
list(FILTER sheet_sources EXCLUDE REGEX "sheet_plugin")
target_sources(test_sheet PRIVATE ${sheet_sources})
target_link_libraries(test_sheet PRIVATE LibXml2::LibXml2)
