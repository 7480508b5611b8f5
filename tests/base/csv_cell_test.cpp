// Cells that a spreadsheet would compute, and what comes back.
#include <catch2/catch.hpp>

#include "core/base/csv_cell.hpp"

using namespace lathbook;

TEST_CASE("cells that begin like a formula are guarded, and the guard comes off again") {
  // Which characters start a formula: OWASP, 'CSV Injection' (from memory), and shared practice of
  // spreadsheets.
  for (const char* text : {"=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\tx", "'tis", "''", "' =1",
                           " lead", "=\"a\",b\n", "-", "+", "-1.", "-.5", "-1e5"}) {
    const std::string guarded = guard_cell(text);
    INFO(text);
    CHECK(guarded == "'" + std::string(text));
    CHECK(unguard_cell(guarded) == text);
  }
  for (const char* text : {"", "-1", "+2.5", "0", "plain", "a=b", "1-2", "x'"}) {
    CHECK(guard_cell(text) == text);
    CHECK(unguard_cell(text) == text);
  }
  // What somebody typed into a sheet of their own keeps its apostrophe.
  CHECK(unguard_cell("'tis") == "'tis");
  CHECK(unguard_cell("'") == "'");
}

TEST_CASE("cells are quoted where RFC 4180 wants it") {
  CHECK(csv_cell("a") == "a");
  CHECK(csv_cell("a,b") == "\"a,b\"");
  CHECK(csv_cell("say \"x\"") == "\"say \"\"x\"\"\"");
  CHECK(csv_cell("=a,b") == "\"'=a,b\"");
  CHECK(csv_cell("two\nlines") == "\"two\nlines\"");
  CHECK(csv_cell("end ") == "\"end \"");
}
