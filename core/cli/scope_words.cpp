#include "core/cli/scope_words.hpp"

#include "core/base/text.hpp"
#include "core/cli/context.hpp"

namespace lathbook::cli {

Level level_of(const std::string& text) {
  if (text.empty() || text == "possible") return Level::possible;
  if (text == "probable") return Level::probable;
  if (text == "certain") return Level::certain;
  fail(ErrorKind::invalid, "a level is certain, probable or possible, not " + quote(text));
}

Uuid scope_of(const StatementReader& reader, const std::string& code) {
  if (code.empty()) return {};
  const auto place = need_record(reader, code);
  if (place.kind != Kind::place) {
    fail(ErrorKind::invalid,
         display(place) + " is no place; name a room or a building (for one thing, ask 'lathbook why')");
  }
  return place.id;
}

}  // namespace lathbook::cli
