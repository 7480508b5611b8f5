// Helpers shared by the tests.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace lathbook::test {

/// A fresh folder under the system's temporary folder, removed with everything in it at the end.
class TempFolder {
public:
  TempFolder();
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;
  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

private:
  std::filesystem::path path_;
};

std::string read_file(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, const std::string& bytes);

/// What a program said: exit code, standard output, standard error.
struct Ran {
  int code = 0;
  std::string out;
  std::string err;
};
/// Runs a program with these arguments and this environment added ("NAME=value"); no shell is involved.
Ran run(const std::vector<std::string>& arguments, const std::vector<std::string>& environment = {},
        const std::string& input = {});
/// The lathbook program of this build.
std::string program();

/// The folder of published schemas and vectors (LATHBOOK_STANDARDS or ../shared/standards beside the
/// checkout); empty when absent: the test then says so with WARN and ends.
std::filesystem::path standards();

}  // namespace lathbook::test
