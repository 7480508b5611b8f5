# Independent readers of what the XML and JSON writers wrote.
target_link_libraries(test_base PRIVATE LibXml2::LibXml2 SQLite::SQLite3)
