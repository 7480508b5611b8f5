target_link_libraries(test_sheet PRIVATE sheet_parts LibXml2::LibXml2)
