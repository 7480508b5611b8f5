# Makes generated/contract_stamp.hpp: the digest of every header that a plugin may see. A plugin compiled
# against other headers is refused without anybody having to remember to raise a number.
file(GLOB contract_headers CONFIGURE_DEPENDS
  base/*.hpp evidence/*.hpp view/*.hpp analysis/*.hpp plugin/plugin.hpp plugin/descriptor.hpp)
list(SORT contract_headers)
set(contract_digests "")
foreach(header ${contract_headers})
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${header})
  file(SHA256 ${header} digest)
  file(RELATIVE_PATH name ${CMAKE_CURRENT_SOURCE_DIR} ${header})
  string(APPEND contract_digests "${name} ${digest}\n")
endforeach()
string(SHA256 contract_digest "${contract_digests}")
string(SUBSTRING ${contract_digest} 0 16 contract_digest)
file(CONFIGURE OUTPUT ${generated}/contract_stamp.hpp @ONLY CONTENT
"// Made by core/plugin/stamp.cmake from the headers that a plugin may see.
#pragma once
#define LATHBOOK_CONTRACT_DIGEST \"@contract_digest@\"
")
