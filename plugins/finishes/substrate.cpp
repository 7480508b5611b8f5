#include "plugins/finishes/substrate.hpp"

#include <algorithm>

#include "core/base/text.hpp"

namespace lathbook::finishes {

namespace {

Looked looked_from(std::string_view outcome) {
  if (outcome == "found") return Looked::found;
  if (outcome == "looked, none") return Looked::none;
  return outcome == "could not tell" ? Looked::could_not_tell : Looked::not_looked;
}

class Reader {
public:
  Reader(const Snapshot& archive, const AnalysisRequest& request) : archive_(archive), request_(request) {}

  void own(const Uuid& id) {
    auto record = archive_.find(id);
    if (!record) return;
    leave_out(*record, request_);
    for (const Statement* one : record->all("stripping-looked-for")) {
      const Looked outcome = looked_from(one->content.value);
      raise(out.stripping, outcome);
      raise(out.clear_finish, outcome == Looked::found ? Looked::not_looked : outcome);
      if (const auto method = one->content.qualifier("method"); !method.empty()) out.methods.emplace(method);
      keep(*one, "signs of stripping and of a clear finish on " + display(record->info) + ": " +
                     one->content.value);
    }
  }

  void examinations(const RecordInfo& element) {
    Query query;
    query.object = element.id;
    query.properties = {Registry::standard().named("examined").id};
    std::vector<Uuid> looks;
    archive_.statements().each_statement(query, [&](const Statement& one) {
      if (!left_out(one.id)) looks.push_back(one.content.subject);
      return true;
    });
    for (const Uuid& look : looks) examination(look);
  }

  Substrate out;

private:
  void examination(const Uuid& id) {
    auto record = archive_.find(id);
    if (!record) return;
    leave_out(*record, request_);
    bool bears = false;
    for (const Statement* one : record->all("sought")) {
      const std::string what = fold(one->content.value);
      const bool strip = what.find("strip") != std::string::npos;
      const bool clear = what.find("clear") != std::string::npos;
      if (!strip && !clear) continue;
      const std::string outcome(one->content.qualifier("outcome"));
      if (strip) raise(out.stripping, looked_from(outcome));
      if (clear) raise(out.clear_finish, looked_from(outcome));
      keep(*one, display(record->info) + ", " + one->content.value + ": " + outcome);
      bears = true;
    }
    // How something else was looked at says nothing of the paint.
    if (!bears) return;
    for (const Statement* one : record->all("method")) out.methods.insert(one->content.value);
  }

  void keep(const Statement& one, const std::string& words) {
    out.said.push_back({one.id, words});
    for (const Citation& citation : one.content.citations)
      if (std::find(out.citations.begin(), out.citations.end(), citation) == out.citations.end())
        out.citations.push_back(citation);
  }

  static void raise(Looked& at, Looked to) { at = std::max(at, to); }
  bool left_out(const Digest& id) const {
    return std::find(request_.leave_out.begin(), request_.leave_out.end(), id) != request_.leave_out.end();
  }

  const Snapshot& archive_;
  const AnalysisRequest& request_;
};

}  // namespace

Substrate substrate_of(const Snapshot& archive, const RecordInfo& element, const std::vector<Uuid>& finishes,
                       const AnalysisRequest& request) {
  Reader reader(archive, request);
  reader.own(element.id);
  for (const Uuid& finish : finishes) reader.own(finish);
  reader.examinations(element);
  return reader.out;
}

void leave_out(RecordView& record, const AnalysisRequest& request) {
  const auto weakest = static_cast<int>(request.level);
  const auto goes = [&](const Statement& one) {
    // Clerical statements (what a thing is called, where it stands) have no confidence, and stay.
    return static_cast<int>(one.content.confidence) > weakest ||
           std::find(request.leave_out.begin(), request.leave_out.end(), one.id) != request.leave_out.end();
  };
  record.facts.erase(std::remove_if(record.facts.begin(), record.facts.end(), goes), record.facts.end());
}

}  // namespace lathbook::finishes
