#include "plugins/finishes/compare.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <tuple>

#include "core/base/colour_difference.hpp"
#include "core/base/number.hpp"
#include "core/view/english.hpp"

namespace lathbook::finishes {

namespace {

// Substrate looked at for stripping, clear finish and soil, nothing found: it hardly stood there unpainted.
constexpr double kFirstSkippedExamined = 0.025;
constexpr double kTopLost = 0.02;

std::string two_decimals(double probability) {
  // What is nearly sure is not printed as quite sure.
  return with_places(std::min(probability, 0.99), 2);
}

std::string counted(int count, const char* one, const char* many) {
  return std::to_string(count) + ' ' + (count == 1 ? one : many);
}

// One comparison at work.
class Pair {
public:
  Pair(const ReadSequence& reference, const ReadSequence& sequence, FinishAlignment& out)
      : a_(reference), b_(sequence), out_(out) {}

  void run() {
    out_.refusal = b_.told.refusal;
    refusal_words_ = b_.told.refusal_words;
    AlignFigures figures;
    if (b_.examined) figures.first_skipped = kFirstSkippedExamined;
    if (b_.top_lost) figures.top_lost = kTopLost;
    const auto found = align(a_.coats, b_.coats, figures);
    if (!found) {
      out_.words = refusal_words_;
      return;
    }
    take(*found);
    if (found->unlike > 0.5 || out_.matches.size() * 2 < b_.coats.size()) unlike();
    tell(found->unlike);
    reasons();
  }

private:
  const FinishCoat& older(std::size_t compared) const { return a_.told.coats[a_.compared[compared]]; }

  void take(const Alignment& found) {
    out_.after = found.after;
    out_.reference_later = found.reference_later;
    out_.k = static_cast<int>(found.k);
    out_.probability = found.after[found.k];
    for (const AlignedPair& pair : found.best) {
      CoatMatch match;
      match.reference = a_.compared[pair.reference];
      match.coat = b_.compared[pair.other];
      differences(match, a_.coats[pair.reference], b_.coats[pair.other]);
      match.probability = pair.probability;
      const bool white = a_.told.coats[match.reference].white || b_.told.coats[match.coat].white;
      if (!white) ++out_.matched_colours;
      out_.matches.push_back(match);
    }
  }

  static void differences(CoatMatch& match, const ComparedCoat& one, const ComparedCoat& other) {
    match.ciede2000 = ciede2000(one.lab, other.lab);
    if (!one.colour || !other.colour) return;
    match.godlove = godlove(*one.colour, *other.colour);
    match.nickerson = nickerson_symmetric(*one.colour, *other.colour);
  }

  void unlike() {
    if (out_.refusal != FinishRefusal::none) return;
    out_.refusal = FinishRefusal::unlike;
    refusal_words_ = "Too few of its coats are also on " + thing_words(a_.told.element) +
                     ": it was painted otherwise, or stood elsewhere.";
  }

  void tell(double unlike) {
    const bool sure = out_.probability >= kStated ||
                      (out_.matched_colours >= kColours && out_.probability >= kStatedByColours);
    if (out_.refusal != FinishRefusal::none) {
      out_.words = refusal_words_ + as_it_stands(unlike);
    } else if (out_.matched_colours == 0) {
      out_.words = "Only whites match, and one white is like another: nothing follows.";
    } else if (!sure) {
      out_.words = open_words();
    } else if (out_.k == 0) {
      out_.words = as_old_words();
    } else {
      conclude();
    }
  }

  void conclude() {
    out_.concluded = true;
    out_.confidence = most_of(a_, b_);
    if (out_.probability < kStated || out_.matched_colours < 2)
      out_.confidence = std::max(out_.confidence, Confidence::possible);
    const FinishCoat& below = older(static_cast<std::size_t>(out_.k) - 1);
    const FinishCoat& with = a_.told.coats[out_.matches.front().reference];
    const bool own_first = out_.matches.front().coat != b_.compared.front();
    out_.words = start(thing_words(b_.told.element)) + (own_first ? " carries " : " begins with ") +
                 coat_words(with) + ", of " + thing_words(a_.told.element) +
                 (own_first ? ", over paint of its own" : "") + ", and lacks the " +
                 (out_.k == 1 ? std::string("finish") : std::to_string(out_.k) + " finishes") +
                 " under it. It was put in after " + coat_words(below) + ", and stood when " +
                 bare_words(with) + " was put on. " + support() + held_words();
  }

  // Why it is held for no more than it is.
  std::string held_words() const {
    if (out_.confidence == Confidence::probable) return " Probable.";
    std::string because = "nobody looked for a clear finish or soil under its first coat";
    if (out_.matched_colours < 2) because = "only one colour matches";
    if (out_.probability < kStated) because = "another place is not much less likely";
    if (a_.sure == Confidence::possible || b_.sure == Confidence::possible)
      because = "a layer is itself recorded as possible";
    if (a_.told.read_by == "on site") because = thing_words(a_.told.element) + " was read on site";
    if (b_.told.read_by == "on site") because = "it was read on site";
    return " Possible, not more: " + because + ".";
  }

  // Counts of what speaks for it, and how sure.
  std::string support() const {
    std::string words = start(counted(static_cast<int>(out_.matches.size()), "coat matches", "coats match")) +
                        ", " + std::to_string(out_.matched_colours) + " of them " +
                        (out_.matched_colours == 1 ? "a colour" : "colours") + " and not white";
    std::vector<std::string> markers;
    for (const CoatMatch& match : out_.matches)
      if (b_.told.coats[match.coat].marker && a_.told.coats[match.reference].marker)
        markers.push_back(b_.told.coats[match.coat].colour);
    if (!markers.empty()) words += "; unlike any other coat here: " + listed(markers);
    return words + ". Probability " + two_decimals(out_.probability) + ".";
  }

  std::string as_old_words() const {
    const CoatMatch& first = out_.matches.front();
    const bool from_the_first = first.reference == a_.compared.front() && first.coat == b_.compared.front();
    const std::string name = start(thing_words(b_.told.element));
    if (!from_the_first)
      return "Nothing in the paint says that " + thing_words(b_.told.element) + " came later than " +
             thing_words(a_.told.element) + ". " + support();
    return name + " begins as " + thing_words(a_.told.element) + " does, with " +
           coat_words(a_.told.coats[first.reference]) + ": nothing in the paint says that it came later. " +
           support();
  }

  std::string open_words() const {
    std::vector<std::pair<double, std::size_t>> ranked;
    for (std::size_t k = 0; k < out_.after.size(); ++k) ranked.emplace_back(out_.after[k], k);
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::string words = "Where " + thing_words(b_.told.element) + " begins is too close to say: ";
    for (std::size_t i = 0; i < 2 && i < ranked.size(); ++i) {
      if (i > 0) words += ", or ";
      words += place_words(ranked[i].second) + " (" + two_decimals(ranked[i].first) + ")";
    }
    return words + ".";
  }

  std::string place_words(std::size_t k) const {
    return k == 0 ? "as early as " + thing_words(a_.told.element) : "after " + coat_words(older(k - 1));
  }

  // What a refused sequence would say if it were whole; never stated, never proposed.
  std::string as_it_stands(double unlike) const {
    if (out_.matches.empty() || unlike > 0.5 || out_.refusal == FinishRefusal::unlike) return {};
    return " As it stands its paint begins " + place_words(static_cast<std::size_t>(out_.k)) + " (" +
           two_decimals(out_.probability) + "); that is no finding.";
  }

  void reasons() {
    for (const CoatMatch& match : out_.matches) {
      const FinishCoat& one = b_.told.coats[match.coat];
      const FinishCoat& other = a_.told.coats[match.reference];
      out_.reasons.push_back({one.said.empty() ? Digest{} : one.said.back(),
                              start(coat_words(one)) + ", matches " + coat_words(other) + " of " +
                                  thing_words(a_.told.element) + ": " + apart_words(match) +
                                  (one.dirt_below && other.dirt_below ? "; both lie on a dirt line" : "") +
                                  (one.white || other.white ? "; white, so it weighs little" : "")});
    }
    for (const ReasonStep& step : b_.told.substrate) out_.reasons.push_back(step);
  }

  static std::string apart_words(const CoatMatch& match) {
    char words[96];
    if (match.godlove < 0)
      std::snprintf(words, sizeof words, "CIEDE2000 %.1f", match.ciede2000);
    else
      std::snprintf(words, sizeof words, "%.1f apart by Godlove (a step of value is 4), CIEDE2000 %.1f",
                    match.godlove, match.ciede2000);
    return words;
  }

  static std::string bare_words(const FinishCoat& coat) { return "coat " + std::to_string(coat.layer); }
  static std::string start(std::string words) {
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
      words.front() = static_cast<char>(words.front() - 'a' + 'A');
    return words;
  }

  const ReadSequence& a_;
  const ReadSequence& b_;
  FinishAlignment& out_;
  std::string refusal_words_;
};

Confidence cap_as_reference(const ReadSequence& one) {
  const bool on_site = one.told.read_by == "on site";
  return std::max(one.sure, on_site ? Confidence::possible : Confidence::probable);
}

}  // namespace

std::string coat_words(const FinishCoat& coat) {
  std::string words = "coat " + std::to_string(coat.layer);
  if (!coat.colour.empty()) words += ", " + coat.colour;
  if (!coat.munsell.empty())
    words += ", " + coat.munsell;
  else if (!coat.measured.empty())
    words += ", L* a* b* " + coat.measured;
  return words;
}

std::string thing_words(const RecordInfo& record) {
  if (record.name.empty()) return record.code.empty() ? record.id.text() : record.code;
  return record.code.empty() ? record.name : record.name + " (" + record.code + ")";
}

Confidence most_of(const ReadSequence& reference, const ReadSequence& sequence) {
  return std::max(cap_as_reference(reference), sequence.told.most);
}

FinishAlignment compare(const std::vector<ReadSequence>& sequences, std::size_t reference,
                        std::size_t sequence) {
  FinishAlignment out;
  out.reference = reference;
  out.sequence = sequence;
  Pair(sequences[reference], sequences[sequence], out).run();
  return out;
}

std::size_t choose_reference(const std::vector<ReadSequence>& sequences,
                             const std::vector<std::size_t>& group, const std::string& wanted) {
  const auto rank = [&](std::size_t at) {
    const ReadSequence& one = sequences[at];
    const bool named = !wanted.empty() && (one.told.element.code == wanted || one.told.sample.code == wanted);
    const int read = one.told.read_by == "laboratory" ? 2 : one.told.read_by == "loupe" ? 1 : 0;
    return std::tuple(named, one.coats.size(), one.told.coats.size(), read);
  };
  return *std::max_element(group.begin(), group.end(),
                           [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
}

std::vector<std::string> disagreements(const std::vector<ReadSequence>& sequences, const FinishGroup& group) {
  std::vector<std::string> out;
  constexpr std::size_t kMostPairs = 150;
  if (group.alignments.size() > kMostPairs)
    return {
        "There are too many sequences here to lay each beside each; they were laid against the reference "
        "only."};
  const auto first_at = [](const FinishAlignment& one) { return one.matches.front().reference; };
  for (std::size_t i = 0; i < group.alignments.size(); ++i)
    for (std::size_t j = i + 1; j < group.alignments.size(); ++j) {
      const FinishAlignment& one = group.alignments[i];
      const FinishAlignment& two = group.alignments[j];
      if (!one.concluded || !two.concluded) continue;
      // The one that begins lower on the reference is the longer of the two.
      const bool swap = first_at(two) < first_at(one);
      const FinishAlignment& longer = swap ? two : one;
      const FinishAlignment& shorter = swap ? one : two;
      const FinishAlignment direct = compare(sequences, longer.sequence, shorter.sequence);
      if (direct.matches.empty()) continue;
      const auto via = std::find_if(
          longer.matches.begin(), longer.matches.end(),
          [&](const CoatMatch& match) { return match.coat == direct.matches.front().reference; });
      if (via == longer.matches.end() || via->reference == first_at(shorter)) continue;
      const RecordInfo& a = sequences[longer.sequence].told.element;
      const RecordInfo& b = sequences[shorter.sequence].told.element;
      out.push_back("Laid beside each other, " + thing_words(a) + " and " + thing_words(b) +
                    " line up otherwise than each does with " +
                    thing_words(sequences[group.reference].told.element) + ": look at both again.");
    }
  return out;
}

}  // namespace lathbook::finishes
