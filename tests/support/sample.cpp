// Takes the sample's sheets in.
#include "tests/support/sample.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <vector>

#include "core/exchange/sheets.hpp"

namespace lathbook::test {

namespace fs = std::filesystem;

Sample::Sample() {
  const fs::path sheets = fs::path(LATHBOOK_SOURCE_DIR) / "archive-sample" / "sheets";
  setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(sheets))
    if (entry.path().extension() == ".csv") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  Archive::create(folder / "archive");
  OpenOptions options;
  options.write = true;
  archive = std::make_unique<Archive>(folder / "archive", clock, options);
  auto writer = archive->write();
  SheetOptions sheet_options;
  sheet_options.media_folder = sheets.parent_path() / "media";
  const SheetReport report = import_sheets(files, *writer, sheet_options);
  for (const RowFault& fault : report.faults) faults += fault.text() + "\n";
  if (!report.applied) faults += "the sheets were not taken in";
  writer->commit();
}

}  // namespace lathbook::test
