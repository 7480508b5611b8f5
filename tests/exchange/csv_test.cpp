// The CSV reader against the seven rules of RFC 4180 (Y. Shafranovich, 2005, section 2) and against bad
// sheets.
#include "core/exchange/csv.hpp"

#include <catch2/catch.hpp>

#include "core/exchange/sheet_cells.hpp"

using namespace lathbook;
using Rows = std::vector<std::vector<std::string>>;

namespace {

Rows read(const std::string& bytes, std::optional<CsvFault>* fault = nullptr) {
  CsvReader reader(bytes);
  CsvRow row;
  Rows rows;
  while (reader.next(row)) {
    rows.emplace_back();
    for (const auto& cell : row.cells) rows.back().push_back(cell.text);
  }
  if (fault != nullptr) {
    *fault = reader.fault();
  } else {
    CHECK_FALSE(reader.fault());
  }
  return rows;
}

CsvFault fault_of(const std::string& bytes) {
  std::optional<CsvFault> fault;
  read(bytes, &fault);
  REQUIRE(fault);
  return *fault;
}

}  // namespace

TEST_CASE("csv: the examples of RFC 4180 section 2") {
  const Rows two{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == two);          // rule 1
  CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") == two);              // rule 2
  CHECK(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == two);  // rule 5
  CHECK(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
        Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});                // rule 6
  CHECK(read("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});  // rule 7
}

TEST_CASE("csv: line feeds, a byte order mark, empty cells and semicolons") {
  CHECK(read("a,b\n1,2\n") == Rows{{"a", "b"}, {"1", "2"}});
  CHECK(read("\xEF\xBB\xBF"
             "a,b\n") == Rows{{"a", "b"}});
  CHECK(read("a,,\n,,\n") == Rows{{"a", "", ""}, {"", "", ""}});
  CHECK(read("a;b,c;d\n1;2,5;3\n") == Rows{{"a", "b,c", "d"}, {"1", "2,5", "3"}});
  CHECK(read("\"a;b;c\",d\n1,2\n") == Rows{{"a;b;c", "d"}, {"1", "2"}});
  CHECK(read("").empty());
}

TEST_CASE("csv: faults say line and column") {
  auto fault = fault_of("a,b\n1,2\nx,y\"z\n");
  CHECK(fault.line == 3);
  CHECK(fault.column == 4);
  fault = fault_of("a,b\n\"1\"2,3\n");
  CHECK(fault.line == 2);
  CHECK(fault.column == 4);
  fault = fault_of("a,b\n1,\"never\nclosed\n");
  CHECK(fault.line == 2);
  CHECK(fault.column == 3);
  fault = fault_of("a,b\nx,caf\xE9\n");
  CHECK(fault.line == 2);
  CHECK(fault.column == 6);
  CHECK(fault.reason.find("E9") != std::string::npos);
  // Columns count characters, not bytes.
  fault = fault_of("a,b\n\xC3\xA9\xC3\xA9,x\"\n");
  CHECK(fault.column == 5);
  CHECK(fault_of("\xFF\xFE"
                 "a")
            .reason.find("UTF-16") != std::string::npos);
  CHECK(fault_of(std::string("a\0b", 3)).column == 2);
  CHECK(fault_of("a\rb\n").column == 2);
  CHECK(fault_of("a\n\"" + std::string(2'000'000, 'x') + "\"\n").reason.find("1 MiB") != std::string::npos);
}

TEST_CASE("cells: several values and their details") {
  using List = std::vector<std::string>;
  CHECK(split_values("a | b|c | d") == List{"a", "b|c", "d"});
  CHECK(split_values("a {source=S-1 | S-2} | b") == List{"a {source=S-1 | S-2}", "b"});
  CHECK(split_values("") == List{""});
  auto cell = split_details(" Chart Room {sort=on a plan; from=1888; to=1951} ");
  CHECK(cell.value == "Chart Room");
  CHECK(cell.details == Details{{"sort", "on a plan"}, {"from", "1888"}, {"to", "1951"}});
  CHECK(split_details("AB{C}D {E}").value == "AB{C}D {E}");
  CHECK(split_details("x {spot=left; of the door; why=}").details ==
        Details{{"spot", "left; of the door"}, {"why", ""}});
  CHECK(header_key(" Stands  IN ") == "stands-in");
  CHECK(header_key("said_on") == "said-on");
}
