// Coats of paint, element by element, from the substrate outward.
#include <algorithm>
#include <map>

#include "core/base/text.hpp"
#include "plugins/report/build.hpp"

namespace lathbook::report {

namespace {

constexpr double kLikely = 0.5;

bool are_alike(const FinishCoat& one, const FinishCoat& other) {
  return one.role == other.role && one.munsell == other.munsell && one.colour == other.colour;
}

/// Coats of a sequence that are taken for coats of the reference: by the alignment, and by their place, where
/// as many coats of the same roles and colours lie between two such, or between the substrate and the first.
std::map<std::size_t, std::size_t> paired_coats(const FinishAlignment& alignment,
                                                const FinishSequence& sequence,
                                                const FinishSequence& reference) {
  std::map<std::size_t, std::size_t> paired;
  for (const CoatMatch& match : alignment.matches)
    if (match.probability >= kLikely) paired[match.coat] = match.reference;
  if (paired.empty()) return paired;
  std::map<std::size_t, std::size_t> all = paired;
  std::size_t below = 0, reference_below = 0;  // the first coats that no match has told of
  for (const auto& [coat, other] : paired) {
    bool alike = coat - below == other - reference_below;
    for (std::size_t n = 0; alike && below + n < coat; ++n)
      alike = are_alike(sequence.coats[below + n], reference.coats[reference_below + n]);
    for (std::size_t n = 0; alike && below + n < coat; ++n) all[below + n] = reference_below + n;
    below = coat + 1;
    reference_below = other + 1;
  }
  return all;
}

}  // namespace

void Builder::add_finishes(const Site& site) {
  if (material_.layers == nullptr) return;
  std::vector<const FinishSequence*> here;
  for (const FinishSequence& sequence : material_.layers->sequences)
    if (!sequence.coats.empty() && teller_.record(sequence.element.id) &&
        is_of_site(site, sequence.element.id))
      here.push_back(&sequence);
  if (here.empty()) return;
  if (!finishes_explained_) add(remark("finishes.words"));
  finishes_explained_ = true;
  std::vector<const FinishSequence*> drawn;
  for (const FinishSequence* sequence : here)
    if (sequence->coats.size() > 1) drawn.push_back(sequence);
  for (std::size_t first = 0; first < drawn.size(); first += 4) {
    const std::size_t end = std::min(drawn.size(), first + 4);
    if (auto figure = finish_columns({drawn.begin() + static_cast<std::ptrdiff_t>(first),
                                      drawn.begin() + static_cast<std::ptrdiff_t>(end)},
                                     site.title))
      add(std::move(*figure));
  }
  for (const FinishSequence* sequence : here) add_sequence(*sequence);
  List found;
  for (const FinishGroup& group : material_.layers->groups)
    for (const FinishAlignment& alignment : group.alignments) {
      const FinishSequence& sequence = material_.layers->sequences[alignment.sequence];
      if (alignment.words.empty() || alignment.refusal != FinishRefusal::none ||
          !is_of_site(site, sequence.element.id))
        continue;
      std::vector<int> notes;
      for (const ReasonStep& reason : alignment.reasons)
        if (const auto said = teller_.statement(reason.statement)) add_notes(notes, teller_.cite(*said));
      for (const FinishCoat& coat : sequence.coats)
        for (const Digest& id : coat.said)
          if (const auto said = teller_.statement(id); said && notes.empty())
            add_notes(notes, teller_.cite(*said));
      found.entries.push_back(paragraph({as_sentence(foreign(alignment.words), notes)}));
    }
  if (!found.entries.empty()) {
    heading(3, "finishes.found");
    add(std::move(found));
  }
}

/// Why nothing follows from a sequence; the second time without the advice after the colon.
std::string Builder::refusal_of(const FinishSequence& sequence) {
  const std::string words = foreign(sequence.refusal_words);
  const bool is_new = told_refusals_.insert(words).second;
  const std::size_t colon = words.find(": ");
  return is_new || colon == std::string::npos ? words
                                              : phrase("finishes.refused", {{"why", words.substr(0, colon)}});
}

std::string Builder::same_coat(const FinishSequence& sequence, std::size_t coat) {
  const auto& all = material_.layers->sequences;
  for (const FinishGroup& group : material_.layers->groups)
    for (const FinishAlignment& alignment : group.alignments) {
      if (&all[alignment.sequence] != &sequence || alignment.refusal != FinishRefusal::none) continue;
      const FinishSequence& reference = all[alignment.reference];
      const auto paired = paired_coats(alignment, sequence, reference);
      if (const auto found = paired.find(coat); found != paired.end())
        return phrase("finishes.same-coat",
                      {{"n", static_cast<std::int64_t>(reference.coats[found->second].layer)},
                       {"element", teller_.label(reference.element.id)}});
    }
  return {};
}

/// What the layers tell of things that nothing else dates, where a person has yet to accept it.
std::optional<Sentence> Builder::told_by_layers(const std::vector<Uuid>& undated) {
  if (material_.layers == nullptr) return std::nullopt;
  std::vector<std::string> names;
  for (const FinishGroup& group : material_.layers->groups)
    for (const FinishAlignment& alignment : group.alignments) {
      const Uuid& element = material_.layers->sequences[alignment.sequence].element.id;
      if (alignment.concluded && std::find(undated.begin(), undated.end(), element) != undated.end())
        add_once(names, teller_.name(element));
    }
  if (names.empty()) return std::nullopt;
  return remark("open.by-layers", {{"names", listing(names)}});
}

void Builder::add_sequence(const FinishSequence& sequence) {
  Table table;
  const bool sampled = sequence.sample.id != Uuid{} && teller_.record(sequence.sample.id).has_value();
  table.caption =
      capital(without_marks(phrase(sampled ? "finishes.caption-sample" : "finishes.caption",
                                   {{"element", teller_.label(sequence.element.id)},
                                    {"sample", sampled ? foreign(sequence.sample.code) : std::string()},
                                    {"how", choice(sequence.read_by)}})));
  for (const char* column :
       {"finishes.layer", "finishes.role", "finishes.colour", "finishes.made-of", "finishes.put-on"})
    table.columns.push_back(phrase(column));
  table.widths = {9, 15, 31, 23, 22};
  for (std::size_t place = 0; place < sequence.coats.size(); ++place) {
    const FinishCoat& coat = sequence.coats[place];
    std::vector<int> notes;
    for (const Digest& id : coat.said)
      if (const auto said = teller_.statement(id)) add_notes(notes, teller_.cite(*said));
    std::string colour = foreign(coat.colour);
    if (!coat.munsell.empty())
      colour +=
          (colour.empty() ? "" : "; ") + phrase("finishes.munsell", {{"notation", foreign(coat.munsell)}});
    if (!coat.measured.empty())
      colour += "; " + phrase("finishes.measured", {{"lab", foreign(coat.measured)}});
    if (coat.chip.trust == "beyond the renotation" || coat.chip.trust == "not on screens")
      colour += " " + phrase("finishes.near");
    if (!coat.colour_fault.empty()) colour += " (" + foreign(coat.colour_fault) + ")";
    std::string stuff = foreign(coat.material);
    if (!coat.pigments.empty()) stuff += (stuff.empty() ? "" : "; ") + foreign(join(coat.pigments, ", "));
    std::string came;
    std::vector<int> dated;
    for (std::size_t at = 0; at < material_.timeline.items.size(); ++at)
      if (item(at).record.id == coat.record.id && is_dated(item(at).begins)) {
        came = surely(item(at).begins) + std::string(trim(when(item(at).begins)));
        dated = cite_ends(item(at).begins);
        told_[at] = true;
      }
    // A coat over several things is dated once, where its sequence is the longest.
    if (const std::string same = same_coat(sequence, place); !same.empty()) {
      came = same;
      dated.clear();
    }
    std::string number = coat.layer == 0 ? std::string("–") : std::to_string(coat.layer);
    if (coat.dirt_below) number += "*";
    Row row;
    row.cells.push_back({{as_words(number)}, {}});
    row.cells.push_back({{as_words(foreign(coat.role) + " (" + foreign(coat.record.code) + ")", notes)}, {}});
    row.cells.push_back({{as_words(colour.empty() ? "–" : colour)}, coat.chip.srgb});
    row.cells.push_back({{as_words(stuff.empty() ? "–" : stuff)}, {}});
    row.cells.push_back({{as_words(came.empty() ? phrase("not-dated") : came, dated)}, {}});
    table.rows.push_back(std::move(row));
  }
  add(std::move(table));
  if (!sequence.refusal_words.empty()) {
    std::vector<int> notes;
    for (const ReasonStep& step : sequence.substrate)
      if (const auto said = teller_.statement(step.statement)) add_notes(notes, teller_.cite(*said));
    add(as_sentence(refusal_of(sequence), notes));
  }
}

}  // namespace lathbook::report
