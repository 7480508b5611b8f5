# The labels' codes are read back by somebody else's reader of QR codes.
find_package(PkgConfig REQUIRED)
pkg_check_modules(ZBAR REQUIRED IMPORTED_TARGET zbar)
target_link_libraries(test_pieces PRIVATE pieces_parts PkgConfig::ZBAR)
