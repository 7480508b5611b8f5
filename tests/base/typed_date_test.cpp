// Dates as people type them: what they are read as, what the sentence says, and what is refused and how.
#include "core/base/typed_date.hpp"

#include <catch2/catch.hpp>

#include "core/base/error.hpp"

using namespace lathbook;

namespace {

struct Row {
  const char* typed;
  const char* edtf;
};

std::string refusal(std::string_view typed) {
  try {
    return "read as " + read_typed_date(typed).edtf.text();
  } catch (const Error& error) {
    CHECK(error.kind() == ErrorKind::invalid);
    return error.what();
  }
}

void check_rows(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    CAPTURE(row.typed);
    std::string read;
    try {
      const TypedDate date = read_typed_date(row.typed);
      read = date.edtf.text();
      CHECK(date.typed == row.typed);
      CHECK_FALSE(date.understood.empty());
    } catch (const Error& error) {
      read = error.what();
    }
    CHECK(read == row.edtf);
  }
}

}  // namespace

TEST_CASE("typed dates are read as EDTF") {
  check_rows({// EDTF as it is
              {"1924-06-12", "1924-06-12"},
              {"189X~", "189X~"},
              {" 1888/1890 ", "1888/1890"},
              {"[1905, 1906]", "[1905,1906]"},
              {"1911-21", "1911-21"},
              // marks
              {"about 1890", "1890~"},
              {"ABOUT  1890", "1890~"},
              {"c. 1905-10", "1905~/1910~"},
              {"c.1905", "1905~"},
              {"ca 1905", "1905~"},
              {"circa 1905", "1905~"},
              {"1905 or so", "1905~"},
              {"probably 1905", "1905?"},
              {"possibly June 1924", "1924-06?"},
              {"c. 1905?", "1905%"},
              {"probably about 1905", "1905%"},
              {"between about 1905 and 1910", "1905~/1910"},
              {"about spring 1911", "1911-21~"},
              // decades and centuries, and their parts
              {"1890s", "189X"},
              {"1890's", "189X"},
              {"the 1890s", "189X"},
              {"about the 1890s", "189X~"},
              {"early 1920s", "1920/1923"},
              {"mid 1880s", "1883/1886"},
              {"mid-1880s", "1883/1886"},
              {"late 1920s", "1926/1929"},
              {"probably late 1920s", "1926?/1929?"},
              {"1900s", "19XX"},
              {"early 1900s", "1900/1933"},
              {"late 1800s", "1866/1899"},
              {"19th century", "18XX"},
              {"19th c.", "18XX"},
              {"the nineteenth century", "18XX"},
              {"early 19th century", "1800/1833"},
              {"first half of the 19th century", "1800/1849"},
              {"last quarter of the nineteenth century", "1875/1899"},
              {"early 1905", "1905-01/1905-04"},
              {"late 1905", "1905-09/1905-12"},
              {"early June 1924", "1924-06-01/1924-06-10"},
              {"end of March 1924", "1924-03-21/1924-03-31"},
              // months, days and seasons
              {"June 1924", "1924-06"},
              {"Jun. 1924", "1924-06"},
              {"June, 1924", "1924-06"},
              {"12 June 1924", "1924-06-12"},
              {"12th June 1924", "1924-06-12"},
              {"the 12th of June, 1924", "1924-06-12"},
              {"on 12 June 1924", "1924-06-12"},
              {"June 12, 1924", "1924-06-12"},
              {"Sept 3rd 1924", "1924-09-03"},
              {"June to August 1924", "1924-06/1924-08"},
              {"spring 1911", "1911-21"},
              {"Spring of 1911", "1911-21"},
              {"Spring, 2002", "2002-21"},
              {"second quarter of 2001", "2001-04/2001-06"},
              {"fall 1911", "1911-23"},
              {"winter 1911-12", "1911-24"},
              {"winter 1911/12", "1911-24"},
              // order
              {"by 1921", "../1921"},
              {"until 1921", "../1921"},
              {"no later than June 1921", "../1921-06"},
              {"1921 at the latest", "../1921"},
              {"before 1921", "../1920"},
              {"before June 1924", "../1924-05"},
              {"before 1 January 1924", "../1923-12-31"},
              {"before 1924-03-01", "../1924-02-29"},
              {"before the 1890s", "../1889"},
              {"before spring 1911", "../1911-02"},
              {"pre-1914", "../1913"},
              {"probably before 1921", "../1920?"},
              {"after 1921", "1922/.."},
              {"after winter 1911-12", "1912-03/.."},
              {"after 31 December 1923", "1924-01-01/.."},
              {"since 1921", "1921/.."},
              {"since about 1921", "1921~/.."},
              {"from 1921", "1921/.."},
              {"from 1921 on", "1921/.."},
              {"1921 onwards", "1921/.."},
              {"not before 1888", "1888/.."},
              {"before the war of 1914", "../1914-07"},
              {"after the war of 1914", "1918-11/.."},
              {"during the war of 1914", "1914-07/1918-11"},
              // spans and choices
              {"between 1924 and 1926", "1924/1926"},
              {"from 1924 to 1926", "1924/1926"},
              {"1924 to 1926", "1924/1926"},
              {"1924-1926", "1924/1926"},
              {"1924 - 1926", "1924/1926"},
              {"1924-26", "1924/1926"},
              {"1888-90", "1888/1890"},
              {"1905\xE2\x80\x93"
               "10",
               "1905/1910"},
              {"1924\xE2\x80\x94"
               "1926",
               "1924/1926"},
              {"about\xC2\xA0"
               "1890",
               "1890~"},
              {"1911/12", "1911/1912"},
              {"about 1924-06", "1924-06~"},
              {"1890s to 1910s", "189X/191X"},
              {"late 1890s to 1903", "1896/1903"},
              {"12 June 1924 to 3 July 1924", "1924-06-12/1924-07-03"},
              {"1905 or 1906", "[1905,1906]"}});
}

TEST_CASE("what was understood is a plain sentence") {
  const std::vector<std::pair<const char*, const char*>> rows{
      {"c. 1905-10", "some time from 1 January 1905 to 31 December 1910, approximate"},
      {"12 June 1924", "12 June 1924"},
      {"by 1921", "some time up to 31 December 1921"},
      {"after 1921", "some time from 1 January 1922 on"},
      {"spring 1911", "some time from 1 March 1911 to 31 May 1911"},
      {"probably 1905", "some time from 1 January 1905 to 31 December 1905, uncertain"},
      {"1924-26", "some time from 1 January 1924 to 31 December 1926"},
      // A month in EDTF that a hurried reader takes for two years is read as the month, and says so.
      {"1905-10", "some time from 1 October 1905 to 31 October 1905 (for the years write 1905/1910)"},
      {"1911-21", "some time from 1 March 1911 to 31 May 1911 (for the years write 1911/1921)"},
      {"1905 or 1906",
       "one of these: some time from 1 January 1905 to 31 December 1905; some time from 1 January 1906 to "
       "31 December 1906"}};
  for (const auto& [typed, sentence] : rows) {
    CAPTURE(typed);
    CHECK(read_typed_date(typed).understood == sentence);
  }
}

TEST_CASE("typed dates that cannot be read are refused with a hint") {
  const std::vector<std::pair<std::string, const char*>> rows{
      {"12/6/1924", "the order of day and month is ambiguous in numbers; write the month as a word"},
      {"12.6.1924", "the order of day and month is ambiguous"},
      {"12-6-1924", "the order of day and month is ambiguous"},
      {"turn of the century", "say which years are meant, such as 'about 1900'"},
      {"about the turn of the century", "say which years are meant"},
      {"undated", "leave the date out when nothing is known"},
      {"n.d.", "leave the date out when nothing is known"},
      {"unknown", "leave the date out when nothing is known"},
      {"after the 1926 permit",
       "'permit' is a thing and not a date; record a relation to the permit itself instead"},
      {"before the ivory tiles", "'tiles' is a thing and not a date"},
      {"by the 1926 building permit", "record a relation to the permit itself instead"},
      {"before the first war", "write 'before July 1914', 'before April 1917'"},
      {"before the Great War", "countries entered that war at different times"},
      {"before the war", "say which war by its year"},
      {"18", "write 18XX for the hundred years"},
      {"188", "write 188X for the ten years"},
      {"1886/1884", "the end comes before the start"},
      {"1926-1924", "the end comes before the start"},
      {"1924-6", "a single digit after the year is ambiguous; write 1924-06 for the month or 1924/1926"},
      {"1924\xE2\x80\x93"
       "06",
       "the second year comes before the first"},
      {"90s", "say which hundred years, such as 1890s or 1990s"},
      {"1893s", "a decade begins with a year that ends in 0, such as 1890s"},
      {"late 1900s",
       "that may mean ten years or a hundred; write for example '1906/1909' or 'late 20th century'"},
      {"31 June 1924", "June 1924 has no day 31"},
      {"29 February 1900", "February 1900 has no day 29"},
      {"12 June", "a year is missing"},
      {"12 June 24", "a year has four digits"},
      {"between 1924", "'between' needs two dates"},
      {"44 BC", "write the year with a minus sign and one less"},
      {"summer 1911-12", "only a winter has two years"},
      {"early spring 1911", "write the months or days meant"},
      {"sometime", "'sometime' is not a word of dates; write for example"},
      {"about", "a year is missing"},
      {"", "nothing is written"},
      {"   ", "nothing is written"},
      {"1905 1906", "the part from '1906' on does not belong to a date"},
      {"vers 1890", "'vers' is not a word of dates"},
      {"1890 \xC3\xA0 1900", "U+00E0 at byte 6 has no place in a date"},
      {"\xFF", "byte FF at byte 1 has no place in a date"},
      {"1890\x1B[31m", "U+001B at byte 5 has no place in a date"},
      {std::string(201, '1'), "is longer than 200 bytes"}};
  for (const auto& [typed, advice] : rows) {
    CAPTURE(typed);
    CHECK_THAT(refusal(typed), Catch::Contains(advice));
  }
}

TEST_CASE("a part of a time is at least its exact share and the parts together are the whole") {
  // Thirds and halves rounded outward: neighbours may share a year, nothing falls between them.
  for (const char* whole : {"1920s", "19th century", "1905", "February 1924", "March 1924"}) {
    CAPTURE(whole);
    const Edtf all = read_typed_date(whole).edtf;
    const Edtf early = read_typed_date(std::string("early ") + whole).edtf;
    const Edtf mid = read_typed_date(std::string("mid ") + whole).edtf;
    const Edtf late = read_typed_date(std::string("late ") + whole).edtf;
    CHECK(early.earliest() == all.earliest());
    CHECK(*mid.earliest() <= *early.latest() + 1);
    CHECK(*late.earliest() <= *mid.latest() + 1);
    CHECK(late.latest() == all.latest());
    // Whole months stand for thirds of a year, so a share may miss two days of its length.
    const Day length = *all.latest() - *all.earliest() + 1;
    for (const Edtf* part : {&early, &mid, &late})
      CHECK((*part->latest() - *part->earliest() + 3) * 3 >= length);
  }
}
