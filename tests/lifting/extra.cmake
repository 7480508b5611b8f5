target_sources(test_lifting PRIVATE ${PROJECT_SOURCE_DIR}/plugins/lifting/equation.cpp)
