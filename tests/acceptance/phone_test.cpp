// The page of a room on a phone: nothing has to be moved sideways to be read. 360 CSS pixels is a common
// small phone; W3C, 'Web Content Accessibility Guidelines 2.1' (2018), success criterion 1.4.10, asks for
// 320.
#include <catch2/catch.hpp>

#include "tests/acceptance/house.hpp"
#include "tests/support/browser.hpp"

using namespace lathbook::test;

namespace {

// All that unfolds is unfolded first, as somebody who reads everything would have it.
const std::string kWidths =
    "for (const one of doc.querySelectorAll('details')) one.open = true;\n"
    "const wide = doc.scrollingElement.scrollWidth;\n"
    "let worst = '';\n"
    "for (const one of doc.body.querySelectorAll('*'))\n"
    "  if (one.getBoundingClientRect().right > view.innerWidth + 1 && !worst)\n"
    "    worst = ' ' + one.tagName + ' ' + one.textContent.slice(0, 60);\n"
    "return view.innerWidth + ' ' + wide + worst;";

}  // namespace

TEST_CASE("the page of a room of the sample fits a phone") {
  const House house;
  const std::string sample = std::string(LATHBOOK_SOURCE_DIR) + "/archive-sample/";
  house.begin();
  house.done({"take-in", sample + "sheets", "--media", sample + "media"});
  const auto page = house.folder / "room.html";
  house.done({"history", "202", "--html", page.string()});
  for (const int width : {360, 320}) {
    const auto seen = in_browser(page, width, kWidths);
    if (!seen) {
      WARN("no chromium: the page was not looked at");
      return;
    }
    CHECK(*seen == std::to_string(width) + " " + std::to_string(width));
  }
}

TEST_CASE("the browser sees what does not fit") {
  const TempFolder folder;
  write_file(folder / "wide.html", "<!DOCTYPE html><p style=\"width:500px\">a &amp; b</p>");
  const auto wide = in_browser(folder / "wide.html", 360, kWidths);
  if (!wide) return;
  CHECK(*wide == "360 508 P a & b");
  CHECK_THROWS_WITH(in_browser(folder / "wide.html", 360, "throw new Error('so');"),
                    Catch::Contains("in the page: fault Error: so"));
}
