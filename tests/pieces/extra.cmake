# The work of the plugin is compiled into the test itself: a plugin exports nothing but its descriptor.
file(GLOB pieces_sources CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/pieces/*.cpp)
list(FILTER pieces_sources EXCLUDE REGEX "pieces_plugin")
target_sources(test_pieces PRIVATE ${pieces_sources})
find_package(PkgConfig REQUIRED)
pkg_check_modules(QRENCODE REQUIRED IMPORTED_TARGET libqrencode)
pkg_check_modules(ZBAR REQUIRED IMPORTED_TARGET zbar)
target_link_libraries(test_pieces PRIVATE PkgConfig::QRENCODE PkgConfig::ZBAR)

