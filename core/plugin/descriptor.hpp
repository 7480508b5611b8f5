// What a plugin's file exports: one piece of plain data, read by the host before any code of the plugin runs.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstring>
#include <exception>
#include <new>

#include "contract_stamp.hpp"
#include "core/plugin/plugin.hpp"

/// Goes up when the meaning of the contract changes; the build stamp below tells every other difference.
#define LATHBOOK_INTERFACE 3

#define LATHBOOK_WORDS_OF(x) #x
#define LATHBOOK_WORDS(x) LATHBOOK_WORDS_OF(x)
#if defined(__clang__)
#define LATHBOOK_STAMP_COMPILER "clang " __clang_version__
#else
#define LATHBOOK_STAMP_COMPILER "g++ " __VERSION__
#endif
#if defined(__SANITIZE_ADDRESS__)
#define LATHBOOK_STAMP_CHECKS ", address sanitizer"
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define LATHBOOK_STAMP_CHECKS ", address sanitizer"
#endif
#endif
#ifndef LATHBOOK_STAMP_CHECKS
#define LATHBOOK_STAMP_CHECKS ""
#endif
/// Compiler, C++ level, form of std::string and digest of the contract's headers. Objects cross the border
/// between host and plugin, so the two must be equal to the letter.
#define LATHBOOK_STAMP                                                                        \
  LATHBOOK_STAMP_COMPILER                                                                     \
  ", C++ " LATHBOOK_WORDS(__cplusplus) ", string ABI " LATHBOOK_WORDS(_GLIBCXX_USE_CXX11_ABI) \
      LATHBOOK_STAMP_CHECKS ", contract " LATHBOOK_CONTRACT_DIGEST

namespace lathbook {

/// What a plugin says of itself. Every text is UTF-8, one line, ended by a nul. Arrays and not pointers, so
/// that the host can read them from the file without loading it; the compiler refuses a text too long.
struct PluginAbout {
  /// Lower-case letters, digits and hyphens; also the file's name without '.so'.
  char name[40] = "";
  char version[24] = "";  ///< "1.2"
  /// One or more of: analysis, export, report, import; separated by blanks.
  char kind[40] = "";
  char summary[200] = "";  ///< one sentence without a full stop
  /// For an analysis: its name and the version of its result's struct, "timeline@2".
  char provides[160] = "";
  /// Analyses whose results it wants, "timeline@2", separated by blanks.
  char needs[160] = "";
  /// Those of the needs (names without version) that it can do without.
  char works_without[160] = "";
  /// Names of the settings that it takes, separated by blanks; a request may also hold those of its needs.
  char settings[200] = "";
};

/// The data under the symbol `lathbook_plugin`. `magic`, `interface_number` and `size` stay where they are
/// for ever; any other change brings a new interface number.
struct LathbookDescriptor {
  char magic[8];
  std::uint32_t interface_number;
  std::uint32_t size;  ///< of this struct in bytes
  char stamp[256];
  PluginAbout about;
  /// Makes the plugin, or returns null and leaves the reason, ended by a nul, in the buffer.
  Plugin* (*create)(char* reason, std::size_t reason_size) noexcept;
};

/// The 'create' of every descriptor: no exception leaves the plugin through it.
template <typename Class>
Plugin* create_plugin(char* reason, std::size_t reason_size) noexcept {
  const auto because = [&](const char* text) {
    std::strncpy(reason, text, reason_size - 1);
    reason[reason_size - 1] = '\0';
  };
  try {
    return new Class();
  } catch (const std::exception& error) {
    because(error.what());
  } catch (...) {
    because("an exception of a type that tells nothing");
  }
  return nullptr;
}

}  // namespace lathbook

extern "C" {
extern LATHBOOK_API const lathbook::LathbookDescriptor lathbook_plugin;
}

/// Write once in a plugin, outside any namespace:
///   LATHBOOK_PLUGIN(lathbook::example::ExamplePlugin, .name = "example", .version = "1.0",
///                   .kind = "report", .summary = "counts the records of an archive")
/// Members in the order of PluginAbout; leave out those that do not apply. Constant data: nothing of it
/// runs when the file is loaded.
#define LATHBOOK_PLUGIN(Class, ...)                                                 \
  constinit const ::lathbook::LathbookDescriptor lathbook_plugin = {                \
      {'L', 'A', 'T', 'H', 'B', 'O', 'O', 'K'}, LATHBOOK_INTERFACE,                 \
      sizeof(::lathbook::LathbookDescriptor),   LATHBOOK_STAMP,                     \
      ::lathbook::PluginAbout{__VA_ARGS__},     &::lathbook::create_plugin<Class>}; \
  static_assert(true, "takes the semicolon")
