#include "plugins/labels/proposals.hpp"

#include <algorithm>

#include "core/base/text.hpp"
#include "core/evidence/registry.hpp"

namespace lathbook::labels {

namespace {

constexpr std::size_t kMostProposals = 3;
constexpr double kWorthProposing = 0.15;

bool said_already(const Snapshot& archive, const Uuid& subject, const char* property,
                  const std::string& value) {
  Query query;
  query.subject = subject;
  query.properties = {Registry::standard().named(property).id};
  bool said = false;
  archive.statements().each_statement(query, [&](const Statement& statement) {
    said = said || statement.content.value == value;
    return !said;
  });
  return said;
}

Content ground(const Statement& transcription, const LabelReading& reading, const char* property) {
  Content content;
  content.property = Registry::standard().named(property).id;
  content.evidence = EvidenceClass::physical;
  content.confidence = reading.verdict == LabelVerdict::clear ? Confidence::probable : Confidence::possible;
  content.citations = transcription.content.citations;
  for (Citation& citation : content.citations)
    if (citation.quote.empty()) citation.quote = transcription.content.value;
  content.grounds.push_back(transcription.id);
  content.why = reading.words;
  content.proposed_by = "labels 1.0";
  return content;
}

void add_room(const Snapshot& archive, const LabelReading& reading, const LabelCandidate& candidate,
              const Statement& transcription, std::vector<Draft>& proposals) {
  const std::string room = candidate.place.id.text();
  if (said_already(archive, reading.carrier.id, "intended-for", room)) return;
  if (said_already(archive, reading.carrier.id, "fitted-in", room)) return;
  Draft draft;
  draft.content = ground(transcription, reading, "intended-for");
  draft.content.subject = reading.carrier.id;
  draft.content.value = room;
  if (!reading.part.empty()) draft.content.qualifiers.push_back({"part", reading.part});
  if (!candidate.left_open.empty())
    draft.content.qualifiers.push_back({"open", join(candidate.left_open, "; ")});
  for (const LabelFactor& factor : candidate.factors) {
    auto& grounds = draft.content.grounds;
    if (factor.statement == Digest{}) continue;
    if (std::find(grounds.begin(), grounds.end(), factor.statement) == grounds.end())
      grounds.push_back(factor.statement);
  }
  draft.words = display(reading.carrier) + " was meant for " + candidate.shown + ", by " +
                display(reading.label) + " " + quote(reading.text) +
                "; that it stood there is another statement";
  proposals.push_back(std::move(draft));
}

void add_number(const Snapshot& archive, const LabelReading& reading, const LabelNumeral& numeral, int value,
                const Statement& transcription, std::vector<Draft>& proposals) {
  const std::string number = std::to_string(value);
  if (said_already(archive, reading.label.id, "assembly-number", number)) return;
  Draft draft;
  draft.content = ground(transcription, reading, "assembly-number");
  draft.content.subject = reading.label.id;
  draft.content.value = number;
  draft.content.confidence = numeral.values.size() == 1 ? Confidence::probable : Confidence::possible;
  draft.words = display(reading.label) + " reads " + number + " (" + numeral.strokes + ", strokes added up)";
  proposals.push_back(std::move(draft));
}

}  // namespace

void add_proposals(const Snapshot& archive, const LabelReading& reading, std::vector<Draft>& proposals) {
  const auto transcription = archive.statements().statement(reading.transcription);
  if (!transcription || transcription->content.citations.empty()) return;
  for (const LabelNumeral& numeral : reading.numerals)
    for (const int value : numeral.values)
      add_number(archive, reading, numeral, value, *transcription, proposals);
  if (reading.verdict != LabelVerdict::clear && reading.verdict != LabelVerdict::ambiguous) return;
  const Kind kind = reading.carrier.kind;
  if (kind != Kind::element && kind != Kind::piece && kind != Kind::find) return;
  std::size_t made = 0;
  for (const LabelCandidate& candidate : reading.candidates) {
    if (candidate.share < kWorthProposing || made == kMostProposals) break;
    if (reading.verdict == LabelVerdict::clear && made == 1) break;
    add_room(archive, reading, candidate, *transcription, proposals);
    ++made;
  }
}

}  // namespace lathbook::labels
