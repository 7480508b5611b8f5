# Plugins that are wrong on purpose, and some good ones that show what the host does. They lie in a folder of
# their own in the build tree; each test copies those it wants into a fresh folder.
set(test_plugins ${PROJECT_BINARY_DIR}/tests/plugin/broken)
function(add_test_plugin name source)
  add_lathbook_plugin(${name} SOURCES ${folder}/broken/${source}.cpp FOLDER ${test_plugins})
  target_compile_definitions(plugin_${name} PRIVATE "TEST_NAME=\"${name}\"" ${ARGN})
  add_dependencies(test_plugin plugin_${name})
endfunction()

set(right_magic "TEST_MAGIC={'L','A','T','H','B','O','O','K'}")
add_test_plugin(other-word ill_described "TEST_MAGIC={'E','L','S','E','B','O','O','K'}"
  TEST_INTERFACE=LATHBOOK_INTERFACE TEST_STAMP=LATHBOOK_STAMP "TEST_KIND=\"report\"")
add_test_plugin(other-interface ill_described ${right_magic}
  TEST_INTERFACE=7 TEST_STAMP=LATHBOOK_STAMP "TEST_KIND=\"report\"")
add_test_plugin(other-stamp ill_described ${right_magic}
  TEST_INTERFACE=LATHBOOK_INTERFACE "TEST_STAMP=\"another compiler\"" "TEST_KIND=\"report\"")
add_test_plugin(other-kind ill_described ${right_magic}
  TEST_INTERFACE=LATHBOOK_INTERFACE TEST_STAMP=LATHBOOK_STAMP "TEST_KIND=\"oracle\"")
add_test_plugin(no-descriptor no_descriptor)
add_test_plugin(unresolved unresolved)
target_link_options(plugin_unresolved PRIVATE -Wl,-z,undefs)
add_test_plugin(bad-start bad_start "TEST_THROWS=std::runtime_error(\"the lamp is out\")")
add_test_plugin(bad-start-number bad_start TEST_THROWS=42)
add_test_plugin(thrower thrower)
add_test_plugin(witness witness)

# Only what is called plain takes settings, so that those that need it show whose settings they may be given.
function(add_needy_plugin name provides needs without)
  set(settings "")
  if(name STREQUAL plain)
    set(settings "a answer b")
  endif()
  add_test_plugin(${name} needy "TEST_PROVIDES=\"${provides}\"" "TEST_NEEDS=\"${needs}\""
    "TEST_WITHOUT=\"${without}\"" "TEST_SETTINGS=\"${settings}\"")
endfunction()
add_needy_plugin(plain plain@1 "" "")
add_needy_plugin(second second@1 plain@1 "")
add_needy_plugin(third third@1 second@1 "")
add_needy_plugin(elsewhere survey@1 "" "")
add_needy_plugin(circle-a circle-a@1 circle-b@1 "")
add_needy_plugin(circle-b circle-b@1 circle-a@1 circle-a)
add_needy_plugin(hungry hungry@1 lost@1 "")
add_needy_plugin(easy easy@1 lost@1 lost)
add_needy_plugin(ahead ahead@1 plain@2 "")
add_needy_plugin(stripped stripped@1 "" "")
target_link_options(plugin_stripped PRIVATE -s)

add_dependencies(test_plugin plugin_example)
target_compile_definitions(test_plugin PRIVATE
  LATHBOOK_TEST_PLUGINS="${test_plugins}" LATHBOOK_PLUGINS_BUILT="${PROJECT_BINARY_DIR}/lib/lathbook/plugins")
