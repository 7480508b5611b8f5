// Reads and checks the table of dating aids once.
#include "core/evidence/dating_aids.hpp"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "core/base/edtf.hpp"
#include "core/base/embedded.hpp"
#include "core/base/error.hpp"
#include "core/base/text.hpp"

namespace lathbook {

namespace {

constexpr std::size_t kColumns = 11;
constexpr std::array<std::string_view, 3> kOn{"fixing", "piece", "finish"};
constexpr std::array<std::string_view, 4> kWeights{"firm", "fair", "weak", "memory"};

[[noreturn]] void refuse(const std::string& row, const std::string& why) {
  fail(ErrorKind::corrupt, "the table of dating aids has a broken row, " + quote(row) + ": " + why);
}

template <typename Enum, std::size_t Count>
Enum one_of(const std::array<std::string_view, Count>& words, const std::string& cell,
            const std::string& row) {
  const auto found = std::find(words.begin(), words.end(), cell);
  if (found == words.end()) refuse(row, quote(cell) + " is none of its words");
  return static_cast<Enum>(found - words.begin());
}

void check_order(const DatingAid& aid, const std::string& row) {
  std::optional<Day> begun;
  for (const std::string* date : {&aid.first, &aid.from, &aid.to}) {
    if (date->empty()) continue;
    const auto edtf = Edtf::try_parse(*date);
    if (!edtf || !edtf->earliest() || !edtf->latest()) refuse(row, quote(*date) + " is no date");
    // A year holds the day that comes before it in the row.
    if (begun && *edtf->latest() < *begun) refuse(row, "its dates are not in order");
    begun = edtf->earliest();
  }
}

}  // namespace

std::string_view word(AidOn on) {
  return kOn.at(static_cast<std::size_t>(on));
}

std::string_view word(AidWeight weight) {
  return kWeights.at(static_cast<std::size_t>(weight));
}

Confidence DatingAid::confidence() const {
  return weight == AidWeight::firm || weight == AidWeight::fair ? Confidence::probable : Confidence::possible;
}

std::vector<DatingAid> read_dating_aids(std::string_view text) {
  std::vector<DatingAid> aids;
  std::set<std::string> ids;
  bool heading = true;
  for (const std::string& line : split(text, '\n')) {
    if (line.empty() || line.front() == '#') continue;
    const auto cells = split(line, '\t');
    if (cells.size() != kColumns) refuse(line, "it has not eleven columns");
    if (std::exchange(heading, false)) continue;
    DatingAid aid;
    aid.id = cells[0];
    aid.group = cells[1];
    aid.on = one_of<AidOn>(kOn, cells[2], line);
    aid.feature = cells[3];
    aid.first = cells[4] == "-" ? "" : cells[4];
    aid.from = cells[5];
    aid.to = cells[6];
    aid.region = cells[7];
    aid.weight = one_of<AidWeight>(kWeights, cells[8], line);
    aid.source = cells[9];
    aid.note = cells[10];
    if (aid.feature.empty() || aid.source.empty()) refuse(line, "it names no feature or no source");
    if (!ids.insert(aid.id).second) refuse(line, "its id is given twice");
    check_order(aid, line);
    aids.push_back(std::move(aid));
  }
  return aids;
}

const std::vector<DatingAid>& dating_aids() {
  static const std::vector<DatingAid> aids = read_dating_aids(embedded_table("dating-aids"));
  return aids;
}

const DatingAid* dating_aid(std::string_view id) {
  for (const DatingAid& aid : dating_aids())
    if (aid.id == id) return &aid;
  return nullptr;
}

std::vector<const DatingAid*> find_aids(const std::vector<std::string>& words) {
  std::vector<const DatingAid*> found;
  for (const DatingAid& aid : dating_aids()) {
    const std::string text =
        fold(aid.id + " " + aid.group + " " + aid.feature + " " + aid.region + " " + aid.note);
    if (std::all_of(words.begin(), words.end(),
                    [&](const std::string& one) { return text.find(fold(one)) != std::string::npos; }))
      found.push_back(&aid);
  }
  return found;
}

double moir_year(double mean_millimetres) {
  return 84.22 * mean_millimetres + 1712.7;
}

}  // namespace lathbook
