#include "plugins/marks/reader.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "plugins/marks/alignment.hpp"
#include "plugins/marks/codes.hpp"
#include "plugins/marks/search.hpp"

namespace lathbook::marks {

namespace {

std::string fit_of(const Position& position, Code reference) {
  switch (position.kind) {
    case PositionKind::letter:
      if (position.code == reference) return "same";
      return class_of(position.code) == class_of(reference) ? "confused" : "other";
    case PositionKind::uncertain:
      if (position.code == reference) return "uncertain";
      return class_of(position.code) == class_of(reference) ? "confused" : "other";
    default:
      return "not read";
  }
}

std::vector<MarkLetters> letters_of(const Query& query, std::string_view codes) {
  std::vector<MarkLetters> letters;
  Aligner aligner(query);
  for (const Step& step : aligner.steps(codes)) {
    MarkLetters pair;
    if (step.reference >= 0)
      pair.reference = letter_of(static_cast<Code>(codes[static_cast<std::size_t>(step.reference)]));
    if (step.position < 0) {
      pair.fit = "too few";
    } else {
      const Position& position = query.positions[static_cast<std::size_t>(step.position)];
      const bool read = position.kind == PositionKind::letter || position.kind == PositionKind::uncertain;
      pair.read = read ? letter_of(position.code) : "·";
      pair.fit = step.reference < 0
                     ? "too many"
                     : fit_of(position, static_cast<Code>(codes[static_cast<std::size_t>(step.reference)]));
    }
    letters.push_back(std::move(pair));
  }
  return letters;
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

// "11 letters as in the list, 4 not read; C for G"
std::string words_of(const std::vector<MarkLetters>& letters, const Query& query,
                     const std::string& dropped) {
  std::size_t same = 0;
  std::size_t unread = 0;
  std::vector<std::string> odd;
  for (const MarkLetters& pair : letters) {
    if (pair.fit == "same" || pair.fit == "uncertain") {
      ++same;
    } else if (pair.fit == "not read") {
      ++unread;
    } else if (pair.fit == "too few") {
      odd.push_back(pair.reference + " is only in the listed mark");
    } else if (pair.fit == "too many") {
      odd.push_back((pair.read == "·" ? std::string("a lost letter") : pair.read) +
                    " is only in the reading");
    } else {
      odd.push_back(pair.read + " where the list has " + pair.reference +
                    (pair.fit == "confused" ? ", easily taken for one another" : ""));
    }
  }
  std::string words = counted(same, "letter fits", "letters fit");
  if (unread > 0) words += ", " + std::to_string(unread) + " not read";
  if (odd.empty()) words += ", none against it";
  const std::size_t shown = std::min<std::size_t>(odd.size(), 4);
  for (std::size_t i = 0; i < shown; ++i) words += "; " + odd[i];
  if (odd.size() > shown) words += "; and " + std::to_string(odd.size() - shown) + " more letters against it";
  if (query.backwards) words += "; read backwards";
  return words + dropped;
}

}  // namespace

ReadMark read_mark(const References& references, const std::string& text, TranscriptionOptions options) {
  ReadMark done;
  done.raw = text;
  if (const auto fault = fault_in_transcription(text)) {
    done.fault = fault->reason;
    return done;
  }
  const auto transcription = read_transcription(text, options);
  done.shown = transcription.shown();
  done.remarks = transcription.remarks;
  std::vector<bool> spoken_for(transcription.tokens.size(), false);
  for (auto& found : find_codes(transcription)) {
    for (std::uint32_t i = found.first_token; i <= found.last_token && !found.part_of_mark; ++i)
      spoken_for[i] = true;
    done.codes.push_back(std::move(found.code));
  }
  const auto lines = positions_by_line(transcription, spoken_for);
  const bool mirrored = transcription.mirrored_plate ||
                        std::find(transcription.right_to_left.begin(), transcription.right_to_left.end(),
                                  true) != transcription.right_to_left.end();
  const Answer answer = search(references.list(), lines, mirrored);
  done.too_little = answer.too_little;
  done.unlisted = answer.unlisted;
  done.others = answer.others;
  for (const Found& found : answer.found) {
    MarkCandidate candidate = references.tell(found.mark);
    candidate.share = found.share;
    candidate.cost = found.cost;
    const Query& query = answer.variants[found.variant];
    const Key& key = references.list().keys()[found.key];
    candidate.letters = letters_of(query, references.list().codes(key));
    candidate.words =
        words_of(candidate.letters, query,
                 found.variant > 0 && !query.backwards ? "; some lines of the reading left out" : "");
    const auto same = std::find_if(
        done.candidates.begin(), done.candidates.end(),
        [&](const MarkCandidate& one) { return one.agent != Uuid{} && one.agent == candidate.agent; });
    if (same == done.candidates.end()) {
      if (done.candidates.empty() && query.backwards) done.variant = "backwards";
      done.candidates.push_back(std::move(candidate));
      continue;
    }
    // One firm in the archive and in a list: its chances are one, and the list is told of.
    same->share += candidate.share;
    if (same->source == Uuid{} && candidate.source != Uuid{}) {
      same->source = candidate.source;
      same->list = candidate.list;
      same->entry = candidate.entry;
      if (same->role.empty() || same->role == "not told") same->role = candidate.role;
      if (same->from.empty()) same->from = candidate.from;
      if (same->to.empty()) same->to = candidate.to;
    }
  }
  std::stable_sort(done.candidates.begin(), done.candidates.end(),
                   [](const MarkCandidate& a, const MarkCandidate& b) { return a.share > b.share; });
  return done;
}

}  // namespace lathbook::marks
