// Pieces on their way: taken down, packed, put back, lost and found, each move with its event.
#include <algorithm>
#include <map>

#include "core/base/calendar.hpp"
#include "core/base/edtf.hpp"
#include "core/base/json_writer.hpp"
#include "core/base/number.hpp"
#include "core/base/text.hpp"
#include "core/cli/drafting.hpp"
#include "core/cli/piece_words.hpp"
#include "core/cli/seats.hpp"
#include "core/cli/work_ground.hpp"
#include "core/evidence/registry.hpp"
#include "core/evidence/validation.hpp"
#include "core/view/piece_states.hpp"
#include "core/view/plain_words.hpp"
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
    if (!wanted_.condition.empty()) refuse_condition(wanted_);
    for (const auto& code : piece_codes(*reader_, wanted_.pieces)) {
      pieces_.push_back(need_piece(code));
      const auto again = [&](const PieceView& other) {
        return other.record.info.id == pieces_.back().record.info.id;
      };
      if (std::any_of(pieces_.begin(), pieces_.end() - 1, again))
        fail(ErrorKind::invalid,
             display(pieces_.back().record.info) + " is named twice; nothing was entered");
    }
    although_ = heed_stops(context_, snapshot_, ids(), wanted_,
                           move_.event == "removed" || move_.event == "put back");
    for (const auto& piece : pieces_) refuse_if_impossible(piece);
    if (container_) choose_places();
    if (move_.to == PieceState::in_place) seats_ = seats_for(snapshot_, pieces_, wanted_.cell);
    if (move_.event == "removed") tell_hazards(context_, snapshot_, ids(), ground_.on);
    if (move_.event == "removed" || move_.event == "put back") tell_dangers();
    for (const auto& [id, seat] : seats_)
      if (!seat.warning.empty()) context_.err() << "  Take care: " << safe_display(seat.warning) << ".\n";
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

  // A move of an earlier day is held against what was so on that day.
  void refuse_if_impossible(const PieceView& piece) const {
    if (touches_fabric()) refuse_if_retained(snapshot_, piece.record.info.id);
    if (const Statement* later = later_state(piece)) return refuse_if_too_early(piece, *later);
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
  }

  void refuse_if_too_early(const PieceView& piece, const Statement& later) const {
    const PieceState then = state_by_then(piece);
    const bool was_in_place =
        then == PieceState::in_place || (then == PieceState::unknown && later.content.value == "on bench");
    const bool fits = move_.event == "removed"  ? was_in_place || then == PieceState::unknown
                      : move_.event == "packed" ? !was_in_place && !refusal(then, move_.to)
                                                : !refusal(then, move_.to);
    if (fits) return;
    fail(ErrorKind::invalid,
         display(piece.record.info) + " was " + (was_in_place ? "in place" : std::string(word(then))) +
             " on " + date_in_words(ground_.on) + ", and " + later.content.value + " only since " +
             date_in_words(later.content.qualifier("on")) +
             ", so this cannot have happened that day; look at the date again; nothing was entered");
  }

  // What is only found out to be lost was not touched by anybody.
  bool touches_fabric() const {
    return move_.event == "removed" || move_.to == PieceState::sampled || move_.to == PieceState::reused ||
           move_.to == PieceState::discarded;
  }

  // Each place in a container is one piece's: the order in which they lie is how they are found again.
  // Without a place the pieces go last.
  void choose_places() {
    Query query;
    query.object = container_->id;
    query.properties = {Registry::standard().named("in-container").id};
    int next = 1, held = 0;
    std::optional<std::pair<int, RecordInfo>> taken;
    const int last = wanted_.order + static_cast<int>(pieces_.size()) - 1;
    reader_->each_statement(query, [&](const Statement& statement) {
      const auto other = snapshot_.find(statement.content.subject);
      if (!other || is_meant(other->info.id)) return true;
      const PieceView piece(*other);
      const Statement* in = piece.record.latest("in-container");
      const bool here = piece_state_from_word(piece.state) == PieceState::in_container && in != nullptr &&
                        in->id == statement.id;
      if (!here) return true;
      ++held;
      const int place = number_in<int>(in->content.qualifier("order")).value_or(0);
      next = std::max(next, place + 1);
      if (wanted_.order > 0 && place >= wanted_.order && place <= last) taken = {place, piece.record.info};
      return true;
    });
    if (taken)
      fail(ErrorKind::invalid, "place " + std::to_string(taken->first) + " in " + display(*container_) +
                                   " is taken by " + display(taken->second) + "; the next free one is " +
                                   std::to_string(next) + "; nothing was entered");
    place_ = wanted_.order > 0 ? wanted_.order : std::max(next, held + 1);
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
    Ground with_reason = ground_;
    with_reason.why = although_.empty() ? ground_.why : although_;
    writer_->add(draft(context_, archive_, *writer_, id, "event-type", move_.event, with_reason));
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
                      std::vector<std::string> details = {}) {
    enter_of_day(context_, archive_, *writer_, piece.record, property, value, ground_, std::move(details));
  }

  void enter_state(const PieceView& piece) {
    enter_changing(piece, "piece-state", std::string(word(move_.to)));
    if (!wanted_.condition.empty()) enter_changing(piece, "piece-condition", wanted_.condition);
    if (const auto seat = seats_.find(piece.record.info.id); seat != seats_.end() && seat->second.to_enter)
      enter_changing(piece, "laid-at", cell_words(seat->second.cell),
                     {"row=" + std::to_string(seat->second.cell.first),
                      "column=" + std::to_string(seat->second.cell.second)});
    if (container_)
      enter_changing(piece, "in-container", container_->code, {"order=" + std::to_string(place_++)});
  }

  // The state of the piece when it is of a later day than the one that was named, so that it goes on.
  const Statement* later_state(const PieceView& piece) const {
    const auto named = earliest_day(ground_.on);
    for (const Statement* state : piece.record.history("piece-state")) {
      const auto since = earliest_day(state->content.qualifier("on"));
      if (named && since && *since > *named) return state;
    }
    return nullptr;
  }

  // The last state up to the day that was named.
  PieceState state_by_then(const PieceView& piece) const {
    const Statement* later = later_state(piece);
    if (later == nullptr) return piece_state_from_word(piece.state);
    PieceState then = PieceState::unknown;
    for (const Statement* state : piece.record.history("piece-state")) {
      if (state == later) break;
      then = piece_state_from_word(state->content.value);
    }
    return then;
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
    if (pieces_.size() == 1 && seats_.size() == 1 && seats_.begin()->second.to_enter)
      context_.out() << ", " << cell_words(seats_.begin()->second.cell);
    if (!wanted_.condition.empty()) context_.out() << ", " << wanted_.condition;
    const bool goes_on = std::none_of(pieces_.begin(), pieces_.end(),
                                      [&](const PieceView& piece) { return later_state(piece) != nullptr; });
    context_.out() << (goes_on ? ", since " : ", on ") << ground_.on;
    if (!event.empty()) context_.out() << " (event " << event << ")";
    context_.out() << '\n';
    for (const auto& piece : pieces_)
      if (later_state(piece) != nullptr)
        context_.out() << "  " << piece.record.info.code << " stays " << piece.state << ", since "
                       << piece.record.latest("piece-state")->content.qualifier("on")
                       << ", which is later: this is kept as an older move\n";
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
  std::string although_;  // why the work was done although it was stopped
  int place_ = 0;         // in the container, of the next piece
  std::map<Uuid, Seat> seats_;
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
  if (state == PieceState::in_container)
    fail(ErrorKind::invalid, "which container it is in is entered with 'pack'; nothing was entered");
  if (std::string why;
      !well_formed(ValueType::choice, "piece-state", wanted.state, Registry::standard(), why))
    fail(ErrorKind::invalid, why + " (for a container use 'pack')");
  if (state == PieceState::discarded && wanted.ground.by.empty())
    fail(ErrorKind::invalid, "a piece is discarded by somebody's authority; name them with --by CODE");
  return Handler(context, wanted, {state, "", false}).run();
}

}  // namespace lathbook::cli
