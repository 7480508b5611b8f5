# The exporters are run as the program runs them: loaded, from the folder of plugins.
add_dependencies(test_formats lathbook plugin_timeline plugin_citations plugin_dublin-core plugin_lido
  plugin_tables plugin_iiif plugin_bag)
target_sources(test_formats PRIVATE ${PROJECT_SOURCE_DIR}/tests/acceptance/house.cpp)
target_link_libraries(test_formats PRIVATE SQLite::SQLite3)
target_link_libraries(test_formats PRIVATE iiif_parts citations_parts)
