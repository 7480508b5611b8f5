#include <algorithm>

#include "core/base/error.hpp"
#include "core/base/text.hpp"
#include "core/evidence/validation.hpp"
#include "core/exchange/sheet_import.hpp"

namespace lathbook {

void SheetImport::check_content(SheetDraft& draft) {
  const auto kind = [this](const Uuid& id) { return kind_of(id); };
  try {
    complete(draft.content, registry_, kind);
  } catch (const Error& error) {
    if (error.kind() != ErrorKind::invalid) throw;
    return fault(draft.row, draft.column, draft.value, error.what());
  }
  for (const auto& finding : validate(draft.content, registry_, kind)) {
    if (finding.severity == Severity::fault) fault(draft.row, draft.column, draft.value, finding.text);
  }
}

// Every handle names one statement, and rows know which rows they lean on.
void SheetImport::check_handles() {
  for (std::size_t d = 0; d < drafts_.size(); ++d) {
    const auto& draft = drafts_[d];
    if (draft.ref.empty()) continue;
    if (Digest::from_hex(draft.ref))
      fault(draft.row, "ref", draft.ref, "a handle must not look like the id of a statement");
    const auto [first, is_new] = draft_of_ref_.emplace(draft.ref, d);
    if (is_new) continue;
    const auto& other = rows_[drafts_[first->second].row];
    fault(draft.row, "ref", draft.ref,
          "the handle is used already at " + sheets_[other.sheet].name + ":" + std::to_string(other.line));
  }
  std::vector<std::string> known;
  for (const auto& draft : drafts_) {
    for (const auto& handle : draft.handles) {
      const auto found = draft_of_ref_.find(handle);
      if (found != draft_of_ref_.end()) {
        if (drafts_[found->second].row != draft.row)
          rows_[draft.row].needs.insert(drafts_[found->second].row);
        continue;
      }
      fault(draft.row, draft.column, handle, "no statement in these sheets has the handle " + quote(handle));
    }
  }
}

// What a record may have one of is said once, unless the second replaces the first.
void SheetImport::check_counts() {
  std::set<std::string> replaced;
  for (const auto& draft : drafts_) replaced.insert(draft.handles.begin(), draft.handles.end());
  std::map<std::pair<Uuid, std::uint32_t>, std::size_t> first_of;
  for (std::size_t d = 0; d < drafts_.size(); ++d) {
    const auto& draft = drafts_[d];
    const auto* property = registry_.find(draft.content.property);
    if (property == nullptr || property->many || (!draft.ref.empty() && replaced.contains(draft.ref)))
      continue;
    const auto [first, is_new] = first_of.emplace(std::make_pair(draft.content.subject, property->id), d);
    if (is_new) continue;
    const auto& other = rows_[drafts_[first->second].row];
    fault(draft.row, draft.column, draft.value,
          "a record has one '" + property->name + "' only, and " + quote(code_of(draft.content.subject)) +
              " has it from " + sheets_[other.sheet].name + ":" + std::to_string(other.line));
  }
}

// Nothing may be part of itself, by whatever detour.
void SheetImport::check_loops() {
  std::map<std::uint32_t, std::map<std::string, std::size_t>> parent;
  for (std::size_t d = 0; d < drafts_.size(); ++d) {
    const auto& content = drafts_[d].content;
    const auto* property = registry_.find(content.property);
    if (property == nullptr || property->many || property->type != ValueType::record) continue;
    if (!rows_[drafts_[d].row].bad) parent[property->id].emplace(content.subject.text(), d);
  }
  for (const auto& [property, up] : parent) {
    std::set<std::string> done;
    for (const auto& entry : up) {
      std::vector<std::string> path;
      auto at = entry.first;
      while (!done.contains(at) && std::find(path.begin(), path.end(), at) == path.end()) {
        path.push_back(at);
        const auto next = up.find(at);
        if (next == up.end()) break;
        at = drafts_[next->second].content.value;
      }
      const auto loop = std::find(path.begin(), path.end(), at);
      const bool closed = loop != path.end() && !done.contains(at) && up.contains(path.back()) &&
                          drafts_[up.at(path.back())].content.value == at;
      if (closed) {
        std::vector<std::string> codes;
        for (auto step = loop; step != path.end(); ++step) codes.push_back(code_of(*Uuid::parse(*step)));
        codes.push_back(codes.front());
        for (auto step = loop; step != path.end(); ++step) {
          const auto& draft = drafts_[up.at(*step)];
          fault(draft.row, draft.column, draft.value,
                "'" + registry_.find(property)->name + "' goes round in a circle: " + join(codes, " > "));
        }
      }
      done.insert(path.begin(), path.end());
    }
  }
}

// As written, but a statement after those it names. Statements that name each other are refused.
void SheetImport::order_drafts() {
  enum class Mark : std::uint8_t { fresh, open, placed };
  std::vector<Mark> marks(drafts_.size(), Mark::fresh);
  struct Step {
    std::size_t draft;
    std::set<std::string>::const_iterator next;
  };
  std::vector<Step> path;  // by hand: a chain of corrections may be longer than the stack is deep
  const auto enter = [&](std::size_t d) {
    marks[d] = Mark::open;
    path.push_back({d, drafts_[d].handles.begin()});
  };
  for (std::size_t d = 0; d < drafts_.size(); ++d) {
    if (marks[d] == Mark::fresh) enter(d);
    while (!path.empty()) {
      auto& step = path.back();
      if (step.next == drafts_[step.draft].handles.end()) {
        marks[step.draft] = Mark::placed;
        order_.push_back(step.draft);
        path.pop_back();
        continue;
      }
      const auto found = draft_of_ref_.find(*step.next++);
      if (found == draft_of_ref_.end() || marks[found->second] == Mark::placed) continue;
      if (marks[found->second] == Mark::fresh) {
        enter(found->second);
      } else {
        const auto& draft = drafts_[step.draft];
        fault(draft.row, draft.column, draft.value,
              "this statement and those it names lean on each other in a circle");
      }
    }
  }
}

void SheetImport::check() {
  check_handles();
  for (auto& draft : drafts_) {
    if (!rows_[draft.row].bad) check_content(draft);
  }
  check_counts();
  check_loops();
  order_drafts();
}

}  // namespace lathbook
