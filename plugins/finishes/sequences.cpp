#include "plugins/finishes/sequences.hpp"

#include <algorithm>
#include <array>
#include <map>

#include "core/base/text.hpp"
#include "plugins/finishes/coats.hpp"
#include "plugins/finishes/substrate.hpp"

namespace lathbook::finishes {

namespace {

bool is_line(const std::string& role) {
  return role == "dirt line" || role == "fracture";
}

Confidence weaker(Confidence a, Confidence b) {
  return std::max(a, b);
}

class Reading {
public:
  Reading(const Snapshot& archive, const AnalysisRequest& request) : archive_(archive), request_(request) {}

  std::vector<ReadSequence> of(const Uuid& element) {
    auto record = archive_.find(element);
    if (!record) return {};
    leave_out(*record, request_);
    const auto finishes = archive_.finishes_on({element});
    std::vector<ReadCoat> layers;
    for (const Uuid& finish : finishes)
      if (auto layer = read_coat(archive_, finish, request_)) layers.push_back(std::move(*layer));
    if (layers.empty()) return {};
    std::stable_sort(layers.begin(), layers.end(), [](const ReadCoat& a, const ReadCoat& b) {
      return a.number.value_or(1 << 20) < b.number.value_or(1 << 20);
    });
    const Substrate substrate = substrate_of(archive_, record->info, finishes, request_);
    const ElementView view(*record);
    std::vector<ReadSequence> out;
    for (const auto& sample : samples_of(layers)) {
      ReadSequence sequence = gather(layers, sample);
      sequence.told.element = view.record.info;
      sequence.told.family = family_of(view.of_class);
      judge(sequence, substrate, sample ? std::vector<Uuid>{*sample} : samples_from(element, finishes));
      out.push_back(std::move(sequence));
    }
    return out;
  }

private:
  // The samples that layers name, in order of code; no sample last, for layers that name none.
  std::vector<std::optional<Uuid>> samples_of(const std::vector<ReadCoat>& layers) const {
    std::vector<RecordInfo> named;
    bool without = false;
    for (const ReadCoat& layer : layers) {
      if (layer.samples.empty()) without = true;
      for (const Uuid& sample : layer.samples)
        if (const auto info = archive_.statements().record(sample))
          if (std::none_of(named.begin(), named.end(), [&](const auto& one) { return one.id == sample; }))
            named.push_back(*info);
    }
    std::sort(named.begin(), named.end(), [](const RecordInfo& a, const RecordInfo& b) {
      return compare_for_people(a.code, b.code) < 0;
    });
    std::vector<std::optional<Uuid>> out;
    for (const RecordInfo& one : named) out.emplace_back(one.id);
    if (without) out.emplace_back(std::nullopt);
    return out;
  }

  ReadSequence gather(const std::vector<ReadCoat>& layers, const std::optional<Uuid>& sample) const {
    ReadSequence out;
    if (sample) out.told.sample = archive_.statements().record(*sample).value_or(RecordInfo{});
    bool dirt = false;
    for (const ReadCoat& layer : layers) {
      const bool in = sample ? std::count(layer.samples.begin(), layer.samples.end(), *sample) > 0
                             : layer.samples.empty();
      if (!in) continue;
      FinishCoat coat = layer.told;
      coat.dirt_below = dirt;
      dirt = is_line(coat.role) || (dirt && !has_colour_of_its_own(coat.role));
      if (layer.seen) {
        out.compared.push_back(out.told.coats.size());
        out.coats.push_back(*layer.seen);
        out.coats.back().dirt_below = coat.dirt_below;
      }
      out.sure = weaker(out.sure, layer.sure);
      out.told.coats.push_back(std::move(coat));
    }
    mark_markers(out);
    out.top_lost = !out.told.coats.empty() && out.told.coats.back().role == "stripped zone";
    return out;
  }

  static void mark_markers(ReadSequence& sequence) {
    for (std::size_t i = 0; i < sequence.coats.size(); ++i) {
      FinishCoat& coat = sequence.told.coats[sequence.compared[i]];
      coat.marker = !coat.white && sequence.coats.size() > 1;
      for (std::size_t j = 0; j < sequence.coats.size(); ++j)
        if (i != j && !far_apart(sequence.coats[i], sequence.coats[j])) coat.marker = false;
    }
  }

  // Samples taken from the element or from one of its finishes.
  std::vector<Uuid> samples_from(const Uuid& element, const std::vector<Uuid>& finishes) const {
    std::vector<Uuid> out;
    const auto gather_from = [&](const Uuid& object) {
      Query query;
      query.object = object;
      query.properties = {Registry::standard().named("sample-from").id};
      archive_.statements().each_statement(query, [&](const Statement& one) {
        out.push_back(one.content.subject);
        return true;
      });
    };
    gather_from(element);
    for (const Uuid& finish : finishes) gather_from(finish);
    return out;
  }

  void judge(ReadSequence& sequence, const Substrate& substrate, const std::vector<Uuid>& samples) const {
    FinishSequence& told = sequence.told;
    bool laboratory = substrate.methods.count("laboratory") > 0;
    std::string short_sample;
    for (const Uuid& id : samples) {
      auto record = archive_.find(id);
      if (!record) continue;
      leave_out(*record, request_);
      if (!record->text("laboratory").empty()) laboratory = true;
      const std::string reaches = fold(record->text("reaches"));
      if (told.sample.id == id && !reaches.empty() && reaches.find("substrate") == std::string::npos)
        short_sample = record->text("reaches");
    }
    told.read_by = laboratory ? "laboratory" : substrate.methods.count("loupe") > 0 ? "loupe" : "on site";
    told.substrate = substrate.said;
    sequence.citations = substrate.citations;
    sequence.examined = substrate.stripping == Looked::none;
    const bool thorough = told.read_by != "on site" && substrate.clear_finish == Looked::none;
    told.most = weaker(sequence.sure, thorough ? Confidence::probable : Confidence::possible);
    refuse(sequence, substrate, short_sample);
  }

  static void refuse(ReadSequence& sequence, const Substrate& substrate, const std::string& short_sample) {
    FinishSequence& told = sequence.told;
    const auto because = [&](FinishRefusal refusal, const std::string& words) {
      if (told.refusal != FinishRefusal::none) return;
      told.refusal = refusal;
      told.refusal_words = words;
    };
    if (sequence.coats.size() > kMostCoats) {
      because(FinishRefusal::layers_unclear,
              "It has more than " + std::to_string(kMostCoats) +
                  " coats to compare: split it into the generations they belong to.");
      sequence.coats.clear();
      sequence.compared.clear();
    }
    if (const std::string fault = numbering_fault(told.coats, told.sample.id != Uuid{}); !fault.empty())
      because(FinishRefusal::layers_unclear, fault);
    if (sequence.coats.empty())
      because(FinishRefusal::no_coats,
              "No finish coat of it has a colour to compare: match its coats against the "
              "Munsell book.");
    // A zone stripped and never painted again ends the sequence; anywhere else it hides what lay below.
    const auto zones = count_role(told.coats, "stripped zone");
    const bool below_top = zones > (sequence.top_lost ? 1U : 0U);
    if (substrate.stripping == Looked::found || below_top)
      because(FinishRefusal::stripped,
              "It was stripped once: how many coats are lost below is not known, so nothing "
              "follows from where its paint begins.");
    if (!short_sample.empty())
      because(FinishRefusal::not_from_bottom, "The sample reaches only " + quote(short_sample) +
                                                  ", not the substrate: what lies below is not known.");
    if (sequence.coats.size() == 1)
      because(FinishRefusal::single_coat,
              "It has a single coat to compare; one colour alone may come round again, so nothing follows.");
    const bool white_only = std::all_of(sequence.compared.begin(), sequence.compared.end(),
                                        [&](std::size_t at) { return told.coats[at].white; });
    if (!sequence.coats.empty() && white_only)
      because(FinishRefusal::white_only,
              "It has whites only, and one white is like another: nothing follows.");
    if (substrate.clear_finish == Looked::found)
      because(FinishRefusal::clear_first,
              "A clear finish lies under its first coat: it may have stood long before it "
              "was painted, so its first paint does not date it.");
    if (substrate.stripping == Looked::could_not_tell)
      because(FinishRefusal::unexamined,
              "It was looked at for stripping, and nobody could tell: it may have lost its "
              "first coats.");
    if (substrate.stripping == Looked::not_looked)
      because(FinishRefusal::unexamined,
              "Nobody has looked whether it was stripped: it may have lost its first coats. Look at the bare "
              "surface, "
              "by loupe or in a section, for tool marks, clean nail holes and soiling under the first coat.");
  }

  static std::size_t count_role(const std::vector<FinishCoat>& coats, const std::string& role) {
    return static_cast<std::size_t>(
        std::count_if(coats.begin(), coats.end(), [&](const auto& coat) { return coat.role == role; }));
  }

  // A sample may lack a layer of the element's; the element's own list may not.
  static std::string numbering_fault(const std::vector<FinishCoat>& coats, bool of_sample) {
    int expected = 1;
    for (const FinishCoat& coat : coats) {
      if (coat.role == "substrate" && coat.layer == 0) continue;
      const std::string which = display(coat.record);
      if (coat.layer <= 0) return "Layer " + which + " has no number, so its place is not known.";
      if (coat.layer < expected) return "Two layers have the number " + std::to_string(coat.layer) + ".";
      if (coat.layer > expected && !of_sample)
        return "No layer has the number " + std::to_string(expected) + ": one is missing from the record.";
      expected = coat.layer + 1;
    }
    return {};
  }

  const Snapshot& archive_;
  const AnalysisRequest& request_;
};

}  // namespace

std::vector<ReadSequence> read_sequences(const Snapshot& archive, const std::vector<Uuid>& elements,
                                         const AnalysisRequest& request) {
  Reading reading(archive, request);
  std::vector<ReadSequence> out;
  for (const Uuid& element : elements)
    for (ReadSequence& one : reading.of(element)) out.push_back(std::move(one));
  return out;
}

std::string family_of(const std::string& element_class) {
  constexpr std::array woodwork{"joinery", "casing", "door", "window", "stair"};
  constexpr std::array plaster{"plaster", "wall", "partition", "ceiling"};
  constexpr std::array metal{"ironwork", "stove", "pipe", "fixture", "fastening"};
  const auto among = [&](const auto& list) {
    return std::find(list.begin(), list.end(), element_class) != list.end();
  };
  return among(woodwork) ? "woodwork" : among(plaster) ? "plaster" : among(metal) ? "metal" : "other";
}

}  // namespace lathbook::finishes
