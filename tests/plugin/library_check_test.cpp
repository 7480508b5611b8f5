// The look into a file survives whatever the file says of itself.
#include "core/plugin/library_check.hpp"

#include <elf.h>
#include <link.h>

#include <catch2/catch.hpp>
#include <cstring>

#include "core/plugin/descriptor.hpp"
#include "tests/plugin/plugin_bench.hpp"

using namespace lathbook;
using namespace lathbook::test;

TEST_CASE("data is read from the file as the compiler put it there") {
  Bench bench;
  const auto file = bench.take("stripped");
  const auto data = exported_data(file, "lathbook_plugin", sizeof(LathbookDescriptor));
  REQUIRE(data);
  REQUIRE(data->size() == sizeof(LathbookDescriptor));
  CHECK(data->substr(0, 8) == "LATHBOOK");
  LathbookDescriptor descriptor{};
  std::memcpy(static_cast<void*>(&descriptor), data->data(), data->size());
  CHECK(std::string(descriptor.about.name) == "stripped");
  CHECK(exported_data(file, "lathbook_plugin", 4) == "LATH");
  CHECK_FALSE(exported_data(file, "lathbook_plugi", 4));
  CHECK_FALSE(exported_data(file, "lathbook_plugin2", 4));
}

TEST_CASE("a false number anywhere in the file's tables is survived") {
  Bench bench;
  const auto file = bench.take("stripped");
  const std::string whole = read_file(file);
  ElfW(Ehdr) header{};
  std::memcpy(&header, whole.data(), sizeof header);
  std::vector<std::size_t> places;
  const auto add = [&](std::size_t from, std::size_t length) {
    for (std::size_t at = from; at < from + length; ++at) places.push_back(at);
  };
  add(0, sizeof header);
  add(header.e_phoff, std::size_t{header.e_phnum} * header.e_phentsize);
  add(header.e_shoff, std::size_t{header.e_shnum} * header.e_shentsize);
  std::size_t refused = 0;
  for (const std::size_t at : places) {
    std::string damaged = whole;
    damaged[at] = static_cast<char>(damaged[at] == '\xff' ? 0x7f : 0xff);
    write_file(file, damaged);
    INFO("byte " << at);
    // Both are asked, also where the first has an objection: the second must not lean on it.
    if (!why_not_a_library(file).empty()) ++refused;
    const auto data = exported_data(file, "lathbook_plugin", sizeof(LathbookDescriptor));
    CHECK((!data || data->size() <= sizeof(LathbookDescriptor)));
  }
  CHECK(refused > places.size() / 10);
  CHECK(refused < places.size());
}
