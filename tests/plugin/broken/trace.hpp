// How a test plugin tells what became of it: a line added to the file that LATHBOOK_TEST_TRACE names.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace lathbook::test {

inline void leave_trace(const char* words) {
  const char* path = std::getenv("LATHBOOK_TEST_TRACE");
  if (path == nullptr) return;
  if (std::FILE* file = std::fopen(path, "a")) {
    std::fprintf(file, "%s\n", words);
    std::fclose(file);
  }
}

/// A static object of this type tells of the loading and the closing of its library.
struct LibraryTrace {
  LibraryTrace() { leave_trace("library loaded"); }
  ~LibraryTrace() { leave_trace("library closed"); }
};

}  // namespace lathbook::test
