# Turns data files of schemas/ into C++ sources holding their text, one function each:
# embed_text(<symbol> <file>) gives `std::string_view lathbook::embedded::<symbol>()`.
set(embedded_sources)
set(embedded_declarations "")
function(embed_text symbol file)
  set(path ${PROJECT_SOURCE_DIR}/schemas/${file})
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${path})
  file(READ ${path} bytes HEX)
  string(REGEX REPLACE "([0-9a-f][0-9a-f])" "'\\\\x\\1'," bytes "${bytes}")
  set(out ${generated}/embedded_${symbol}.cpp)
  file(CONFIGURE OUTPUT ${out} @ONLY CONTENT
"// Made from schemas/${file} by core/embed.cmake.
#include <string_view>
namespace lathbook::embedded {
std::string_view ${symbol}();
std::string_view ${symbol}() {
  static constexpr char text[] = {${bytes}'\\0'};
  return {text, sizeof(text) - 1};
}
}  // namespace lathbook::embedded
")
  set(embedded_sources ${embedded_sources} ${out} PARENT_SCOPE)
endfunction()
embed_text(properties properties.tsv)
embed_text(choices choices.tsv)
embed_text(dates_en dates-en.tsv)
embed_text(trade_words trade-words-en.tsv)
embed_text(dating_aids dating-aids.tsv)
embed_text(label_words label-words-en.tsv)
embed_text(room_names room-names-en.tsv)
embed_text(marks_diamonds marks-diamonds.tsv)
embed_text(marks_rd_numbers marks-rd-numbers.tsv)
embed_text(marks_us_patents marks-us-patents.tsv)
embed_text(report_en report-en.tsv)
embed_text(marks_origin marks-origin.tsv)
embed_text(cautions cautions-en.tsv)
embed_text(choice_words choice-words-en.tsv)
embed_text(lying_flat lying-flat-en.tsv)
embed_text(munsell_renotation munsell-renotation.tsv)
