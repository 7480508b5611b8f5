# The plugin exports nothing but its descriptor: what is tested is compiled in.
file(GLOB marks_parts CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/plugins/marks/*.cpp)
list(FILTER marks_parts EXCLUDE REGEX "marks_plugin|analysis|proposals|references|reader|text|json")
target_sources(test_marks PRIVATE ${marks_parts})
