// Pieces on their way: taken down, packed, put back, lost and found, each move with its event.
#include <algorithm>
#include <map>

#include "core/base/calendar.hpp"
#include "core/base/edtf.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/work_ground.hpp"
#include "core/evidence/registry.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/snapshot.hpp"

namespace lathbook::cli {

namespace {

// What a move enters beside the new state.
struct Move {
  PieceState to = PieceState::unknown;
  std::string event;       // of choice list 'event-type'
  bool to_return = false;  // a removal for the works only
};

// One command's work: refuses all of it or enters all of it.
class Handler {
public:
  Handler(Context& context, const Handling& wanted, Move move)
      : context_(context),
        wanted_(wanted),
        move_(std::move(move)),
        archive_(context.open(true)),
        writer_(session(context, archive_)),
        reader_(
            archive_.read({.with_private = true, .known_on = {}, .by_entry_day = false, .fingerprint = {}})),
        snapshot_(*reader_),
        ground_(wanted.ground) {
    fill_in(context, ground_);
  }

  int run() {
    if (!wanted_.container.empty()) container_ = need_container();
    for (const auto& code : wanted_.pieces) {
      pieces_.push_back(need_piece(code));
      const auto again = [&](const PieceView& other) {
        return other.record.info.id == pieces_.back().record.info.id;
      };
      if (std::any_of(pieces_.begin(), pieces_.end() - 1, again))
        fail(ErrorKind::invalid,
             display(pieces_.back().record.info) + " is named twice; nothing was entered");
    }
    for (const auto& piece : pieces_) refuse_if_impossible(piece);
    if (container_ && wanted_.order > 0) refuse_taken_places();
    if (move_.event == "removed") tell_hazards(context_, snapshot_, ids());
    if (move_.event == "removed" || move_.event == "put back") tell_dangers();
    if (ground_.source.empty()) ground_.source = day_sheet(context_, archive_, *writer_, *reader_, ground_);
    const std::string event = enter_event();
    for (const auto& piece : pieces_) enter_state(piece);
    writer_->commit();
    tell(event);
    return kDone;
  }

private:
  RecordInfo need_container() const {
    const auto record = need_record(*writer_, wanted_.container);
    if (record.kind != Kind::container)
      fail(ErrorKind::invalid, display(record) + " is no container; make one with 'lathbook new container'");
    return record;
  }

  PieceView need_piece(const std::string& code) const {
    const auto record = need_record(*reader_, code);
    if (record.kind != Kind::piece && record.kind != Kind::find)
      fail(ErrorKind::invalid,
           display(record) +
               " is no piece; a whole element is moved piece by piece, or as a piece of its own");
    return PieceView(RecordView::read(*reader_, record));
  }

  // A state of the same day would stand beside the new one; the new one then takes its place.
  std::optional<Digest> of_this_day(const PieceView& piece, const char* property) const {
    const Statement* latest = piece.record.latest(property);
    if (latest == nullptr || latest->content.qualifier("on") != ground_.on) return std::nullopt;
    return latest->id;
  }

  void refuse_if_impossible(const PieceView& piece) const {
    const PieceState now = piece_state_from_word(piece.state);
    std::string where;
    if (now == PieceState::in_container && piece.container) {
      if (const auto box = reader_->record(*piece.container)) where = " (" + display(*box) + ")";
    }
    const auto say = [&](const std::string& rest) {
      fail(ErrorKind::invalid, display(piece.record.info) + " " + rest + where + "; nothing was entered");
    };
    if (const auto why = refusal(now, move_.to)) say(*why);
    if (move_.event == "removed" && now != PieceState::in_place && now != PieceState::unknown)
      say("is " + piece.state + " already, so it cannot be taken down");
    if (move_.event == "packed" && now == PieceState::in_place)
      say("is in place; take it down first, so that its hazards, its support and the work are on record");
    if (move_.to == PieceState::in_container && now == PieceState::in_container &&
        piece.container == container_->id)
      say("is in that container already");
    if (touches_fabric()) refuse_if_retained(snapshot_, piece.record.info.id);
  }

  // What is only found out to be lost was not touched by anybody.
  bool touches_fabric() const {
    return move_.event == "removed" || move_.to == PieceState::sampled || move_.to == PieceState::reused ||
           move_.to == PieceState::discarded;
  }

  // Each place in a container is one piece's: the order in which they lie is how they are found again.
  void refuse_taken_places() const {
    Query query;
    query.object = container_->id;
    query.properties = {Registry::standard().named("in-container").id};
    int next = 1;
    std::optional<std::pair<int, RecordInfo>> taken;
    const int last = wanted_.order + static_cast<int>(pieces_.size()) - 1;
    reader_->each_statement(query, [&](const Statement& statement) {
      const auto other = snapshot_.find(statement.content.subject);
      if (!other || is_meant(other->info.id)) return true;
      const PieceView piece(*other);
      const Statement* in = piece.record.latest("in-container");
      const bool here = piece_state_from_word(piece.state) == PieceState::in_container && in != nullptr &&
                        in->id == statement.id;
      const int place = here ? number_in<int>(in->content.qualifier("order")).value_or(0) : 0;
      next = std::max(next, place + 1);
      if (place >= wanted_.order && place <= last) taken = {place, piece.record.info};
      return true;
    });
    if (taken)
      fail(ErrorKind::invalid, "place " + std::to_string(taken->first) + " in " + display(*container_) +
                                   " is taken by " + display(taken->second) + "; the next free one is " +
                                   std::to_string(next) + "; nothing was entered");
  }

  bool is_meant(const Uuid& id) const {
    return std::any_of(pieces_.begin(), pieces_.end(),
                       [&](const PieceView& piece) { return piece.record.info.id == id; });
  }

  std::vector<Uuid> ids() const {
    std::vector<Uuid> all;
    for (const auto& piece : pieces_) all.push_back(piece.record.info.id);
    return all;
  }

  // What the order in which they were named endangers, by the place or element in which they sit; what
  // lies beneath evidence is refused.
  void tell_dangers() const {
    std::map<Uuid, std::vector<const PieceView*>> by_scope;
    for (const auto& piece : pieces_)
      if (piece.element) by_scope[scope_of(*piece.element)].push_back(&piece);
    for (const auto& [scope, pieces] : by_scope) {
      AnalysisRequest request;
      request.scope = scope;
      const bool back = move_.to == PieceState::in_place;
      if (back) request.settings.emplace_back("way", "back");
      for (const PieceView* piece : pieces) request.settings.emplace_back("judge", piece->record.info.code);
      const auto& order =
          std::get<WorkOrder>(context_.plugins().run_analysis("takedown", snapshot_, request));
      if (!back) refuse_beneath(order, pieces);
      tell_warnings(order);
      if (!order.warnings.empty())
        context_.err() << (back ? "  Set first what it needs.\n"
                                : "  Take first what is in danger, or prop it.\n");
    }
  }

  // What beginning on a field endangers is told when it is begun, and after that pointed to.
  void tell_warnings(const WorkOrder& order) const {
    std::map<Uuid, std::vector<std::string>> as_before;
    for (const auto& warning : order.warnings) {
      if (warning.taken.kind == Kind::element && is_begun(warning.taken.id))
        as_before[warning.taken.id].push_back(warning.endangered.code);
      else
        context_.err() << (warning.taken.id == Uuid{} ? "  Evidence: " : "  Danger: ")
                       << safe_display(warning.words) << ".\n";
    }
    for (const auto& [element, endangered] : as_before) {
      const auto field = reader_->record(element);
      context_.err() << "  Danger: as since " << safe_display(display(*field))
                     << " was begun: " << join(endangered, ", ") << (endangered.size() == 1 ? " is" : " are")
                     << " still there; 'lathbook print takedown " << order.scope.code
                     << " --setting propose=" << field->code << "' says why.\n";
    }
  }

  // Whether a piece of it came away before those that are meant now.
  bool is_begun(const Uuid& element) const {
    Query query;
    query.object = element;
    query.properties = {Registry::standard().named("piece-of").id};
    bool begun = false;
    reader_->each_statement(query, [&](const Statement& statement) {
      if (is_meant(statement.content.subject)) return true;
      const auto record = snapshot_.find(statement.content.subject);
      const auto state = record ? piece_state_from_word(PieceView(*record).state) : PieceState::unknown;
      begun = state != PieceState::unknown && state != PieceState::in_place &&
              state != PieceState::missing_at_survey;
      return !begun;
    });
    return begun;
  }

  // The place in which the element stands, so that what touches it there is seen as well.
  Uuid scope_of(const Uuid& element) const {
    const auto record = snapshot_.find(element);
    const auto place = record ? record->record("stands-in") : std::nullopt;
    return place && snapshot_.find(*place) ? *place : element;
  }

  static void refuse_beneath(const WorkOrder& order, const std::vector<const PieceView*>& pieces) {
    for (const auto& block : order.blocked)
      for (const PieceView* piece : pieces)
        if (block.thing.id == piece->record.info.id)
          fail(ErrorKind::denied, block.words + "; nothing was entered");
  }

  void say(const Uuid& subject, const std::string& property, const std::string& value,
           std::vector<std::string> details = {}) {
    if (value.empty()) return;
    Ground ground = ground_;
    ground.details = std::move(details);
    writer_->add(draft(context_, archive_, *writer_, subject, property, value, ground));
  }

  std::string enter_event() {
    if (move_.event.empty()) return {};
    const auto code = archive_.free_code("V");
    const auto id = writer_->make_record(Kind::event, code, context_.recorder(*writer_));
    say(id, "event-type", move_.event);
    say(id, "event-date", ground_.on);
    int turn = 0;
    for (const auto& piece : pieces_)
      say(id, "event-on", piece.record.info.code, {"order=" + std::to_string(++turn)});
    say(id, "done-by", ground_.by);
    say(id, "tools", wanted_.tools);
    say(id, "outcome", wanted_.outcome);
    say(id, "worked", wanted_.worked);
    say(id, "hours", wanted_.hours);
    say(id, "lesson", wanted_.lesson);
    if (move_.to_return) say(id, "to-return", "yes");
    if (container_) say(id, "moved-to", container_->code);
    std::vector<std::string> details;
    if (!wanted_.batch.empty()) details.push_back("batch=" + wanted_.batch);
    say(id, "product", wanted_.product, details);
    say(id, "new-work-marked", wanted_.marked);
    say(id, "curing-days", wanted_.cures);
    return code;
  }

  void enter_changing(const PieceView& piece, const char* property, const std::string& value,
                      std::vector<std::string> details) {
    Ground ground = ground_;
    details.push_back("on=" + ground_.on);
    ground.details = std::move(details);
    Content content = draft(context_, archive_, *writer_, piece.record.info.id, property, value, ground);
    if (const auto before = of_this_day(piece, property)) {
      content.targets.push_back(*before);
      if (content.why.empty()) content.why = "moved again on the same day";
    }
    writer_->add(std::move(content));
  }

  void enter_state(const PieceView& piece) {
    enter_changing(piece, "piece-state", std::string(word(move_.to)), {});
    if (!container_) return;
    std::vector<std::string> details;
    if (wanted_.order > 0) details.push_back("order=" + std::to_string(wanted_.order + placed_++));
    enter_changing(piece, "in-container", container_->code, std::move(details));
  }

  // The state of the piece when it is of a later day than the one that was named, so that it goes on.
  const Statement* later_state(const PieceView& piece) const {
    const Statement* now = piece.record.latest("piece-state");
    const auto named = earliest_day(ground_.on);
    const auto since = now == nullptr ? std::nullopt : earliest_day(now->content.qualifier("on"));
    return named && since && *since > *named ? now : nullptr;
  }

  void tell(const std::string& event) const {
    std::vector<std::string> codes;
    for (const auto& piece : pieces_) codes.push_back(piece.record.info.code);
    const std::string state(word(move_.to));
    if (context_.json()) {
      tell_pairs(context_, {{"event", event},
                            {"state", state},
                            {"container", container_ ? container_->code : ""},
                            {"pieces", join(codes, " ")},
                            {"on", ground_.on}});
      return;
    }
    context_.out() << join(codes, ", ") << ": " << context_.strong(state);
    if (container_) context_.out() << ", " << display(*container_);
    const bool goes_on = std::none_of(pieces_.begin(), pieces_.end(),
                                      [&](const PieceView& piece) { return later_state(piece) != nullptr; });
    context_.out() << (goes_on ? ", since " : ", on ") << ground_.on;
    if (!event.empty()) context_.out() << " (event " << event << ")";
    context_.out() << '\n';
    for (const auto& piece : pieces_)
      if (const Statement* later = later_state(piece))
        context_.out() << "  " << piece.record.info.code << " stays " << later->content.value << ", since "
                       << later->content.qualifier("on") << ", which is later\n";
  }

  Context& context_;
  const Handling& wanted_;
  Move move_;
  Archive archive_;
  std::unique_ptr<Writer> writer_;
  std::unique_ptr<StatementReader> reader_;
  Snapshot snapshot_;
  Ground ground_;
  std::optional<RecordInfo> container_;
  std::vector<PieceView> pieces_;
  int placed_ = 0;
};

}  // namespace

int take_down(Context& context, const Handling& wanted) {
  return Handler(context, wanted, {PieceState::on_bench, "removed", true}).run();
}

int pack(Context& context, const Handling& wanted) {
  return Handler(context, wanted, {PieceState::in_container, "packed", false}).run();
}

int put_back(Context& context, const Handling& wanted) {
  return Handler(context, wanted, {PieceState::in_place, "put back", false}).run();
}

int account(Context& context, const Handling& wanted) {
  const auto state = piece_state_from_word(wanted.state);
  if (state == PieceState::unknown || state == PieceState::in_container) {
    fail(ErrorKind::invalid, quote(wanted.state) + " is no state to account for; the states are " +
                                 join(Registry::standard().choices("piece-state"), ", ") +
                                 " (for a container use 'pack')");
  }
  if (state == PieceState::discarded && wanted.ground.by.empty())
    fail(ErrorKind::invalid, "a piece is discarded by somebody's authority; name them with --by CODE");
  return Handler(context, wanted, {state, "", false}).run();
}

}  // namespace lathbook::cli
