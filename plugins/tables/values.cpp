// Dates and paths.
#include "plugins/tables/values.hpp"

#include <algorithm>

#include "core/base/edtf.hpp"
#include "core/base/text.hpp"

namespace lathbook::tables {

namespace {

std::string plain(const std::optional<Day>& day) {
  if (!day) return {};
  const CivilDay civil = civil_from_days(*day);
  return civil.year >= 1 && civil.year <= 9999 ? iso_day(*day) : std::string();
}

}  // namespace

std::string first_day(const std::string& edtf) {
  return plain(earliest_day(edtf));
}

std::string last_day(const std::string& edtf) {
  return plain(latest_day(edtf));
}

bool stands_apart(const Qualifier& one) {
  const auto semicolon = one.value.find(';');
  return semicolon != std::string::npos &&
         (one.value.back() == ';' || one.value.find('=', semicolon) != std::string::npos);
}

std::string media_path_of(const Content& said) {
  std::string path = "media/" + said.value;
  const std::string name(said.qualifier("file-name"));
  const auto dot = name.rfind('.');
  const std::string ending = dot == std::string::npos ? "" : to_lower_ascii(name.substr(dot + 1));
  const bool usable = !ending.empty() && ending.size() <= 5 &&
                      std::all_of(ending.begin(), ending.end(),
                                  [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9'); });
  return usable ? path + "." + ending : path;
}

}  // namespace lathbook::tables
