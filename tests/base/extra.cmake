target_link_libraries(test_base PRIVATE LibXml2::LibXml2)
