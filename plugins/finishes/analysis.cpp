#include "plugins/finishes/analysis.hpp"

#include <algorithm>
#include <map>

#include "core/base/text.hpp"
#include "plugins/finishes/compare.hpp"
#include "plugins/finishes/proposals.hpp"
#include "plugins/finishes/sequences.hpp"

namespace lathbook::finishes {

namespace {

class Layers {
public:
  Layers(const Snapshot& archive, const AnalysisRequest& request, Services& services)
      : archive_(archive), request_(request), services_(services) {
    for (const auto& [name, value] : request.settings)
      if (name == "reference") reference_ = value;
  }

  FinishLayers run() {
    out_.reading = archive_.reading();
    out_.method = method_words();
    const std::vector<Uuid> places = find_places();
    for (std::size_t at = 0; at < places.size(); ++at) {
      if (services_.stop_requested()) return {};
      services_.progress(at, places.size());
      place(places[at]);
    }
    if (!reference_.empty() && !reference_met_)
      fail(ErrorKind::not_found, "no layers are recorded under " + quote(reference_) +
                                     " there; name an element or sample whose layers are");
    lonely();
    keep_what_concerns();
    for (ReadSequence& one : sequences_) out_.sequences.push_back(std::move(one.told));
    return std::move(out_);
  }

private:
  std::vector<Uuid> find_places() {
    std::vector<Uuid> places;
    if (request_.scope == Uuid{}) {
      archive_.statements().each_record(Kind::place, [&](const RecordInfo& info) {
        places.push_back(info.id);
        return true;
      });
      return places;
    }
    const auto record = archive_.find(request_.scope);
    if (!record) fail(ErrorKind::not_found, "the place or thing asked for is not in this reading");
    out_.scope = record->info;
    if (record->info.kind == Kind::place) return archive_.places_within(request_.scope);
    std::optional<Uuid> element;
    if (record->info.kind == Kind::element) element = record->info.id;
    if (record->info.kind == Kind::finish) element = FinishView(*record).element;
    if (!element)
      fail(ErrorKind::invalid,
           display(record->info) +
               " has no layers to compare; name a place, an element or one of its finishes");
    only_ = element;
    return places_of(*element, 0);
  }

  // A part that has no place of its own stands where its whole does.
  std::vector<Uuid> places_of(const Uuid& element, int depth) const {
    std::vector<Uuid> places;
    const auto record = archive_.find(element);
    if (!record) return places;
    const ElementView view(*record);
    for (const StandingView& standing : view.places)
      if (std::find(places.begin(), places.end(), standing.place) == places.end())
        places.push_back(standing.place);
    if (places.empty() && view.part_of && depth < 20) return places_of(*view.part_of, depth + 1);
    return places;
  }

  void place(const Uuid& id) {
    const auto info = archive_.statements().record(id);
    if (!info) return;
    std::map<std::string, std::vector<std::size_t>> families;
    for (const Uuid& element : archive_.elements_in({id}))
      for (const std::size_t at : sequences_of(element)) families[sequences_[at].told.family].push_back(at);
    for (auto& [family, members] : families) group(*info, family, members);
  }

  const std::vector<std::size_t>& sequences_of(const Uuid& element) {
    const auto known = of_element_.find(element);
    if (known != of_element_.end()) return known->second;
    auto& places = of_element_[element];
    for (ReadSequence& one : read_sequences(archive_, {element}, request_)) {
      places.push_back(sequences_.size());
      sequences_.push_back(std::move(one));
    }
    return places;
  }

  void group(const RecordInfo& place, const std::string& family, std::vector<std::size_t> members) {
    std::stable_sort(members.begin(), members.end(), [&](std::size_t a, std::size_t b) {
      const int order = compare_for_people(sequences_[a].told.element.code, sequences_[b].told.element.code);
      return order != 0
                 ? order < 0
                 : compare_for_people(sequences_[a].told.sample.code, sequences_[b].told.sample.code) < 0;
    });
    FinishGroup out;
    out.place = place;
    out.family = family;
    out.reference = choose_reference(sequences_, members, reference_);
    const FinishSequence& chosen = sequences_[out.reference].told;
    reference_met_ = reference_met_ || chosen.element.code == reference_ || chosen.sample.code == reference_;
    out.sequences.push_back(out.reference);
    for (const std::size_t at : members)
      if (at != out.reference) out.sequences.push_back(at);
    for (std::size_t i = 1; i < out.sequences.size(); ++i) line_up(out, out.sequences[i]);
    out.remarks = disagreements(sequences_, out);
    out_.groups.push_back(std::move(out));
  }

  void line_up(FinishGroup& group, std::size_t at) {
    FinishAlignment alignment = compare(sequences_, group.reference, at);
    // The reference has more coats and may yet be the later one.
    if (alignment.reference_later > 0.5) alignment = compare(sequences_, at, group.reference);
    if (const auto fuller = fuller_sample(at)) {
      alignment.concluded = false;
      alignment.words = thing_words(sequences_[at].told.element) + " was sampled more than once; " +
                        sample_words(*fuller) + " shows more layers and decides.";
    } else {
      for (Draft& draft : proposals_from(archive_, sequences_, alignment)) propose(std::move(draft));
    }
    group.alignments.push_back(std::move(alignment));
  }

  std::string sample_words(std::size_t at) const {
    const RecordInfo& sample = sequences_[at].told.sample;
    return sample.id == Uuid{} ? "the record of the whole" : thing_words(sample);
  }

  // Another sequence of the same element with more coats to compare.
  std::optional<std::size_t> fuller_sample(std::size_t at) {
    std::optional<std::size_t> best;
    for (const std::size_t other : sequences_of(sequences_[at].told.element.id)) {
      const std::size_t least = best ? sequences_[*best].coats.size() : sequences_[at].coats.size();
      if (sequences_[other].coats.size() > least) best = other;
    }
    return best;
  }

  void propose(Draft draft) {
    const bool again = std::any_of(out_.proposals.begin(), out_.proposals.end(), [&](const Draft& one) {
      return one.content.subject == draft.content.subject && one.content.property == draft.content.property &&
             one.content.value == draft.content.value;
    });
    if (!again) out_.proposals.push_back(std::move(draft));
  }

  // What has no neighbour of its kind anywhere cannot be compared.
  void lonely() {
    std::vector<bool> compared(sequences_.size(), false);
    for (const FinishGroup& group : out_.groups)
      if (group.sequences.size() > 1)
        for (const std::size_t at : group.sequences) compared[at] = true;
    for (std::size_t at = 0; at < sequences_.size(); ++at) {
      FinishSequence& told = sequences_[at].told;
      if (compared[at] || told.refusal != FinishRefusal::none) continue;
      told.refusal = FinishRefusal::no_neighbour;
      told.refusal_words =
          "No other " + told.family + " of the place has layers recorded to compare it with.";
    }
  }

  void keep_what_concerns() {
    if (!only_) return;
    const auto concerns = [&](std::size_t at) { return sequences_[at].told.element.id == *only_; };
    for (FinishGroup& group : out_.groups) {
      auto& list = group.alignments;
      if (concerns(group.reference)) continue;
      list.erase(std::remove_if(list.begin(), list.end(),
                                [&](const FinishAlignment& one) {
                                  return !concerns(one.sequence) && !concerns(one.reference);
                                }),
                 list.end());
      // The others would stand there without their findings.
      auto& shown = group.sequences;
      shown.erase(std::remove_if(shown.begin(), shown.end(),
                                 [&](std::size_t at) { return at != group.reference && !concerns(at); }),
                  shown.end());
    }
    auto& groups = out_.groups;
    groups.erase(std::remove_if(groups.begin(), groups.end(),
                                [&](const FinishGroup& group) {
                                  return std::none_of(group.sequences.begin(), group.sequences.end(),
                                                      concerns);
                                }),
                 groups.end());
    const auto finishes = archive_.finishes_on({*only_});
    auto& drafts = out_.proposals;
    drafts.erase(std::remove_if(drafts.begin(), drafts.end(),
                                [&](const Draft& draft) {
                                  const auto object = Uuid::parse(draft.content.value);
                                  const auto own = [&](const Uuid& id) {
                                    return id == *only_ ||
                                           std::find(finishes.begin(), finishes.end(), id) != finishes.end();
                                  };
                                  return !own(draft.content.subject) && !(object && own(*object));
                                }),
                 drafts.end());
  }

  const Snapshot& archive_;
  const AnalysisRequest& request_;
  Services& services_;
  std::string reference_;
  bool reference_met_ = false;
  std::optional<Uuid> only_;
  std::vector<ReadSequence> sequences_;
  std::map<Uuid, std::vector<std::size_t>> of_element_;
  FinishLayers out_;
};

}  // namespace

FinishLayers layers_of(const Snapshot& archive, const AnalysisRequest& request, Services& services) {
  return Layers(archive, request, services).run();
}

std::string method_words() {
  return "Coats are compared by their Munsell colours with Godlove's formula of 1951, measured ones by "
         "CIEDE2000, in the order in which they lie; primers, undercoats and varnishes are left out, dirt "
         "lines "
         "and pigments count where both were recorded. The probability sums over all ways of lining two "
         "sequences up. A finding by paint alone is never certain, and one that leans on a scrape read on "
         "site "
         "is possible at most. Colours are shown after the Munsell renotation of 1943, adapted to daylight: "
         "good enough to tell coats apart, not to match paint by.";
}

}  // namespace lathbook::finishes
