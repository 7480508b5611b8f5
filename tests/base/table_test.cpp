// Columns line up by what a terminal shows, not by bytes.
#include "core/base/table.hpp"

#include <catch2/catch.hpp>

#include "core/base/error.hpp"

using lathbook::Table;

TEST_CASE("columns are aligned") {
  Table table({"code", "what", "n"});
  table.align(2, Table::Align::right);
  table.add({"N-2", "größere Tür", "5"});
  table.add({"N-10", "窓"});
  table.add({"S-1", "a\nb\x1b", "120"});
  CHECK(table.text() ==
        "code  what           n\n"
        "N-2   größere Tür    5\n"
        "N-10  窓\n"
        "S-1   a b<U+001B>  120\n");
  CHECK(table.size() == 3);
  CHECK_THROWS_AS(table.add({"a", "b", "c", "d"}), lathbook::Error);
}

TEST_CASE("a table without a header takes its width from the first row") {
  Table table;
  CHECK(table.empty());
  CHECK(table.text().empty());
  table.add({"a", "b"});
  table.add({"long"});
  CHECK(table.text(2) == "  a     b\n  long\n");
  CHECK_THROWS_AS(table.add({"1", "2", "3"}), lathbook::Error);
}
