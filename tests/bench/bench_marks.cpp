// A million invented reference marks, searched with invented damaged readings: time, recall, calibration, and
// the same search as a full scan with python3-levenshtein (Debian package) in the same run.
//
// Everything here is invented: the marks are syllables strung together, the damage is a guess of ours at what
// wear, casting and mortar do, and the temperature fitted on it is only as good as that guess.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <unordered_set>
#include <vector>

#include "core/base/transcription.hpp"
#include "plugins/marks/search.hpp"

namespace {

using namespace lathbook;
using namespace lathbook::marks;
using Random = std::mt19937_64;

double now() {
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

std::size_t below(Random& random, std::size_t n) {
  return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
}

// --- the invented list

std::string invented_name(Random& random, bool town) {
  static const std::vector<std::string> heads = {
      "B", "BR", "C",  "CH", "CL", "CR", "D",  "DR", "F",  "FL", "G",  "GR", "H", "J", "K",  "L", "M",
      "N", "P",  "PR", "QU", "R",  "S",  "SH", "SK", "ST", "T",  "TH", "TR", "V", "W", "WH", "Y", ""};
  static const std::vector<std::string> hearts = {"A",  "E",  "I",  "O",  "U",  "AI",
                                                  "EA", "EE", "OO", "OU", "AY", "OW"};
  static const std::vector<std::string> tails = {"",   "N",  "R",    "L",   "M",   "S",  "T",  "D",
                                                 "K",  "NE", "RN",   "LL",  "SS",  "TT", "CK", "ND",
                                                 "NT", "RD", "STER", "LEY", "TON", "SON"};
  static const std::vector<std::string> ends = {"FORD", "BURY", "PORT",   "MOUTH", "WICK",
                                                "HAM",  "DEN",  "BRIDGE", "FIELD"};
  std::string name;
  const std::size_t syllables = 1 + below(random, 2) + (below(random, 4) == 0 ? 1 : 0);
  for (std::size_t i = 0; i < syllables; ++i) {
    name += heads[below(random, heads.size())];
    name += hearts[below(random, hearts.size())];
    name += tails[below(random, tails.size())];
  }
  return town ? name + ends[below(random, ends.size())] : name;
}

std::string invented_mark(Random& random, const std::vector<std::string>& names,
                          const std::vector<std::string>& towns) {
  const auto name = [&]() -> const std::string& { return names[below(random, names.size())]; };
  const auto& town = towns[below(random, towns.size())];
  switch (below(random, 8)) {
    case 0:
    case 1:
      return name() + " & " + name();
    case 2:
      return name() + " & CO. / " + town;
    case 3:
      return name() + " BROS. / " + town;
    case 4:
      return name() + " & SON / " + town;
    case 5:
      return name() + " TILE WORKS";
    case 6:
      return name() + " & " + name() + " / " + town;
    default:
      return std::string(1, static_cast<char>('A' + below(random, 26))) + ". " + name() + " / " + town;
  }
}

std::vector<std::string> invented_marks(std::size_t count) {
  Random random(20);
  std::vector<std::string> names;
  std::vector<std::string> towns;
  for (std::size_t i = 0; i < 40'000; ++i) names.push_back(invented_name(random, false));
  for (std::size_t i = 0; i < 8'000; ++i) towns.push_back(invented_name(random, true));
  std::unordered_set<std::string> seen;
  std::vector<std::string> marks;
  while (marks.size() < count) {
    auto mark = invented_mark(random, names, towns);
    if (spell(mark).codes.size() >= 8 && seen.insert(mark).second) marks.push_back(std::move(mark));
  }
  return marks;
}

// --- the invented damage

enum class Damage { none, light, casting, three_lost, one_end, heavy };
const char* const kDamageNames[] = {
    "undamaged", "light", "casting confusions", "three letters lost", "40% lost at one end", "heavy"};

bool is_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

std::vector<std::size_t> letters_of(const std::string& mark, Random& random) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < mark.size(); ++i) {
    if (is_letter(mark[i])) places.push_back(i);
  }
  std::shuffle(places.begin(), places.end(), random);
  return places;
}

std::string confused(char letter, Random& random) {
  for (const std::string members : {"I1LJ", "O0QD", "S5", "B8", "Z2", "G6C", "VUY", "T7", "E3F", "PR"}) {
    if (members.find(letter) == std::string::npos) continue;
    char other = letter;
    while (other == letter) other = members[below(random, members.size())];
    return std::string(1, other);
  }
  return std::string(1, letter);
}

// The reading, in the signs a person would type, of a mark that was damaged in this way.
std::string damaged(const std::string& mark, Damage damage, Random& random) {
  std::vector<std::string> cells;
  for (const char c : mark) cells.emplace_back(1, c);
  const auto places = letters_of(mark, random);
  const auto other_letter = [&] { return std::string(1, static_cast<char>('A' + below(random, 26))); };
  switch (damage) {
    case Damage::none:
      break;
    case Damage::light:  // one letter doubtful, one lost or misread
      cells[places[0]] = (below(random, 4) == 0 ? other_letter() : cells[places[0]]) + "?";
      cells[places[1]] = below(random, 2) == 0 ? "[1]" : other_letter();
      break;
    case Damage::casting:
      for (std::size_t i = 0, changed = 0; i < places.size() && changed < 3; ++i) {
        const auto other = confused(mark[places[i]], random);
        if (other != cells[places[i]]) ++changed;
        cells[places[i]] = other;
      }
      break;
    case Damage::three_lost:
      for (std::size_t i = 0; i < 3; ++i) cells[places[i]] = "[1]";
      break;
    case Damage::one_end: {
      const std::size_t lost = mark.size() * 2 / 5;
      const bool front = below(random, 2) == 0;
      const std::string rest = front ? mark.substr(lost) : mark.substr(0, mark.size() - lost);
      return front ? "[---]" + rest : rest + "[---]";
    }
    case Damage::heavy:
      for (std::size_t i = 0; i < places.size() / 3; ++i) {
        const auto kind = below(random, 5);
        auto& cell = cells[places[i]];
        if (kind < 2) cell = "[1]";
        if (kind == 2) cell += "?";
        if (kind == 3) cell = confused(cell[0], random);
        if (kind == 4 && i < 3) cell = below(random, 2) == 0 ? other_letter() : "";
      }
      break;
  }
  std::string text;
  for (const auto& cell : cells) text += cell;
  return text;
}

// --- what is measured

struct Result {
  double seconds = 0;
  bool first = false;
  bool among_five = false;
  bool listed = true;
  double share_of_first = 0;
  double unlisted = 0;
};

Result ask(const ReferenceList& list, const std::string& reading, std::size_t truth, bool listed) {
  Result result;
  result.listed = listed;
  const double start = now();
  const auto transcription = read_transcription(reading, {true});
  const auto answer = search(list, positions_by_line(transcription, {}), false);
  result.seconds = now() - start;
  for (std::size_t i = 0; i < answer.found.size() && i < 5 && listed; ++i) {
    const bool same = answer.found[i].mark == truth;
    result.first = result.first || (same && i == 0);
    result.among_five = result.among_five || same;
  }
  result.share_of_first = answer.found.empty() ? 0 : answer.found.front().share;
  result.unlisted = answer.unlisted;
  return result;
}

double quantile(std::vector<double> values, double q) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(q * static_cast<double>(values.size() - 1))];
}

void print_times(const char* what, const std::vector<Result>& results) {
  std::vector<double> times;
  double first = 0;
  double five = 0;
  for (const auto& result : results) {
    times.push_back(result.seconds * 1000);
    first += result.first ? 1 : 0;
    five += result.among_five ? 1 : 0;
  }
  const auto n = static_cast<double>(results.size());
  std::printf("%-22s %5zu   %7.2f %7.2f %7.2f   %5.3f   %5.3f\n", what, results.size(), quantile(times, 0.5),
              quantile(times, 0.95), quantile(times, 1), first / n, five / n);
}

// Said against true: the share given to the first candidate, or to 'not in the list' when that comes first.
void print_calibration(const std::vector<Result>& results) {
  constexpr int kBands = 8;
  const double edges[kBands + 1] = {0, 0.2, 0.4, 0.6, 0.8, 0.9, 0.97, 0.995, 1.0001};
  std::printf(
      "\ncalibration of the first answer ('not in the list' is an answer too)\n"
      "said            queries   said on average   true\n");
  double brier = 0;
  for (int band = 0; band < kBands; ++band) {
    double said = 0;
    double right = 0;
    double count = 0;
    for (const auto& result : results) {
      const bool away = result.unlisted >= result.share_of_first;
      const double share = std::max(result.unlisted, result.share_of_first);
      if (share < edges[band] || share >= edges[band + 1]) continue;
      const bool correct = away ? !result.listed : result.first;
      said += share;
      right += correct ? 1 : 0;
      brier += (share - (correct ? 1 : 0)) * (share - (correct ? 1 : 0));
      count += 1;
    }
    if (count > 0) {
      std::printf("%5.3f to %5.3f  %7.0f   %15.3f   %5.3f\n", edges[band], std::min(edges[band + 1], 1.0),
                  count, said / count, right / count);
    }
  }
  std::printf("Brier score %.4f\n", brier / static_cast<double>(results.size()));
}

// One distance to every mark, letters only, in one list comprehension: the shortest thing a person would
// write.
double peer_seconds(const std::vector<std::string>& marks, const std::vector<std::string>& readings) {
  const auto folder =
      std::filesystem::temp_directory_path() / ("bench_marks_" + std::to_string(std::random_device{}()));
  std::filesystem::create_directory(folder);
  {
    std::ofstream list(folder / "list");
    for (const auto& mark : marks) list << mark << '\n';
    std::ofstream asked(folder / "asked");
    for (const auto& reading : readings) asked << reading << '\n';
    std::ofstream script(folder / "scan.py");
    script << "import sys, time\n"
              "try:\n"
              "    from Levenshtein import distance\n"
              "except ImportError:\n"
              "    sys.exit(0)\n"
              "clean = lambda s: ''.join(c for c in s if c.isalnum() or c == '&')\n"
              "marks = [clean(line) for line in open(sys.argv[1])]\n"
              "asked = [clean(line) for line in open(sys.argv[2])]\n"
              "start = time.perf_counter()\n"
              "for one in asked:\n"
              "    scores = [distance(one, mark) for mark in marks]\n"
              "    best = min(scores)\n"
              "print((time.perf_counter() - start) / len(asked))\n";
  }
  const auto at = [&](const char* name) { return (folder / name).string(); };
  const auto command =
      "/usr/bin/python3 " + at("scan.py") + " " + at("list") + " " + at("asked") + " > " + at("out");
  double seconds = 0;
  if (std::system(command.c_str()) == 0) std::ifstream(at("out")) >> seconds;
  std::filesystem::remove_all(folder);
  return seconds;
}

}  // namespace

int main(int count, char** words) {
  const std::size_t size = count > 1 ? std::strtoul(words[1], nullptr, 10) : 1'000'000;
  const std::size_t each = count > 2 ? std::strtoul(words[2], nullptr, 10) : 300;
  const auto marks = invented_marks(size + size / 10);
  ReferenceList list;
  double start = now();
  double letters = 0;
  for (std::size_t i = 0; i < size; ++i) {
    list.add(marks[i]);
    letters += static_cast<double>(spell(marks[i]).codes.size());
  }
  list.make_ready();
  std::printf("%zu invented marks of %.1f letters, %zu keys, made ready in %.2f s\n", size,
              letters / static_cast<double>(size), list.keys().size(), now() - start);
  std::printf("\ninvented damage       queries  median   p95     worst   first   in five   (times in ms)\n");
  Random random(7);
  std::vector<Result> all;
  std::vector<Result> aimed;
  std::vector<std::string> sample;
  for (const Damage damage :
       {Damage::none, Damage::light, Damage::casting, Damage::three_lost, Damage::one_end, Damage::heavy}) {
    std::vector<Result> results;
    for (std::size_t i = 0; i < each; ++i) {
      const std::size_t truth = below(random, size);
      const auto reading = damaged(marks[truth], damage, random);
      results.push_back(ask(list, reading, truth, true));
      if (i < 2) sample.push_back(reading);
    }
    print_times(kDamageNames[static_cast<int>(damage)], results);
    all.insert(all.end(), results.begin(), results.end());
    if (damage == Damage::light || damage == Damage::casting || damage == Damage::three_lost) {
      aimed.insert(aimed.end(), results.begin(), results.end());
    }
  }
  std::vector<Result> strangers;
  for (std::size_t i = 0; i < each * 2; ++i) {
    const auto& mark = marks[size + below(random, size / 10)];
    strangers.push_back(ask(list, damaged(mark, static_cast<Damage>(below(random, 6)), random), 0, false));
  }
  print_times("not in the list", strangers);
  all.insert(all.end(), strangers.begin(), strangers.end());
  print_times("all together", all);
  print_calibration(all);
  double ours = 0;
  for (const auto& result : all) ours += result.seconds;
  ours /= static_cast<double>(all.size());
  const double peer = peer_seconds(
      std::vector<std::string>(marks.begin(), marks.begin() + static_cast<std::ptrdiff_t>(size)), sample);
  if (peer <= 0) {
    std::printf("\npython3-levenshtein is not here: no ratio\n");
    return 0;
  }
  std::printf(
      "\nfull scan with python3-levenshtein: %.0f ms a reading; ours %.2f ms on average: %.0f times faster, "
      "reach >= 50\n",
      peer * 1000, ours * 1000, peer / ours);
  return 0;
}
