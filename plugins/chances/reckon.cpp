// Decides what is certain and what cannot be told, draws the rest, and says each in a sentence.
#include "plugins/chances/reckon.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/base/text.hpp"
#include "core/view/record_view.hpp"
#include "plugins/chances/instants.hpp"
#include "plugins/chances/phrases.hpp"
#include "plugins/chances/runs.hpp"

namespace lathbook::chances {

namespace {

class Reckoner {
public:
  Reckoner(const Timeline& timeline, const Question& question, Services& services)
      : timeline_(timeline), question_(question), services_(services), instants_(timeline.network) {}

  Chances make() {
    chances_.scope = timeline_.scope;
    chances_.reading = timeline_.reading;
    chances_.level = timeline_.level;
    chances_.seed = question_.seed;
    chances_.prior = kPriorWords;
    if (question_.first && question_.second)
      ask_order();
    else
      ask_dates();
    draw();
    tell();
    add_cautions();
    return std::move(chances_);
  }

private:
  // --- what is asked
  std::size_t begin(const Uuid& record, int placement) const {
    const auto found = instants_.begin(record, placement);
    if (!found)
      fail(ErrorKind::invalid,
           "only placements of elements and finishes that are to be seen have a beginning");
    return *found;
  }

  Day day_of(double tick) const {
    return static_cast<Day>(std::floor(tick / static_cast<double>(timeline_.network.ticks_per_day)));
  }

  void add_date(const RecordInfo& record, int placement, int placements, std::size_t at) {
    const NetworkInstant& instant = timeline_.network.instants[at];
    ChanceDate& date = chances_.dates.emplace_back();
    date.record = record;
    date.placement = placement;
    date.placements = placements;
    if (instant.earliest_known) date.not_before = day_of(static_cast<double>(instant.earliest));
    if (instant.latest_known) date.not_after = day_of(static_cast<double>(instant.latest));
    if (!date.not_before || !date.not_after)
      date.state = ChanceState::unbounded;
    else if (*date.not_before == *date.not_after)
      date.state = ChanceState::certain;
    else
      wanted_.push_back(at);
    instant_of_date_.push_back(at);
  }

  void ask_dates() {
    for (const TimelineItem& item : timeline_.items)
      if (item.placement > 0)
        add_date(item.record, item.placement, item.placements, begin(item.record.id, item.placement));
    if (wanted_.size() > kMostDates)
      fail(ErrorKind::invalid, std::to_string(wanted_.size()) + " dates are too many to draw at once (" +
                                   std::to_string(kMostDates) + " at most); ask for a room");
  }

  void ask_order() {
    const auto info = [&](const Uuid& record) {
      for (const TimelineItem& item : timeline_.items)
        if (item.record.id == record) return item;
      fail(ErrorKind::invalid, "only elements and finishes that are to be seen can be asked about");
    };
    const TimelineItem one = info(*question_.first), other = info(*question_.second);
    const std::size_t first = begin(one.record.id, question_.first_placement);
    const std::size_t second = begin(other.record.id, question_.second_placement);
    if (first == second) fail(ErrorKind::invalid, "name two different things");
    add_date(one.record, question_.first_placement, one.placements, first);
    add_date(other.record, question_.second_placement, other.placements, second);
    ChanceOrder& order = chances_.orders.emplace_back();
    order.first = one.record;
    order.second = other.record;
    order.first_placement = question_.first_placement;
    order.second_placement = question_.second_placement;
    decide(order, first, second);
  }

  // From distances, not from draws.
  void decide(ChanceOrder& order, std::size_t first, std::size_t second) {
    const Tick after = instants_.least_after(first, second), before = instants_.least_after(second, first);
    not_after_ = after >= 0;
    not_before_ = before >= 0;
    if (after > 0 || before > 0 || (after == 0 && before == 0)) {
      order.state = ChanceState::certain;
      (after > 0 ? order.before : before > 0 ? order.after : order.same_year) = 1;
      return;
    }
    if (instants_.is_bounded(first) && instants_.is_bounded(second)) {
      wanted_ = {first, second};
      return;
    }
    order.state = ChanceState::unbounded;
    const auto orders = instants_.orders(first, second);
    if (!orders) return;
    order.orders = orders->all;
    order.orders_before = orders->with_first_before;
    things_ordered_ = orders->things;
  }

  // --- draws
  void draw() {
    if (wanted_.empty()) return;
    instants_.choose(wanted_);
    chances_.instants = instants_.drawn_count();
    chances_.left_out = instants_.left_out();
    std::vector<Var> vars;
    for (const std::size_t at : wanted_) vars.push_back(instants_.drawn(at).var);
    Plan plan = kPlain;
    run(vars, plan);
    if (!all_mixed() && !services_.stop_requested()) {
      plan = kForests;
      run(vars, plan);
    }
    chances_.chains = plan.chains;
    chances_.draws = plan.draws;
    chances_.method = method_words(plan);
  }

  void run(const std::vector<Var>& vars, const Plan& plan) {
    std::uint64_t asked = 0;
    const auto stop = [&] {
      services_.progress(++asked, static_cast<std::uint64_t>(plan.chains) *
                                      static_cast<std::uint64_t>(plan.thrown_away + plan.draws));
      return services_.stop_requested();
    };
    draws_ = run_chains(instants_.system(), vars, plan, question_.seed, stop);
    for (std::size_t at = 0; at < draws_.size(); ++at) {
      const auto offset = static_cast<double>(instants_.drawn(wanted_[at]).offset);
      for (auto& chain : draws_[at])
        for (double& value : chain) value += offset;
    }
  }

  bool all_mixed() const { return std::all_of(draws_.begin(), draws_.end(), has_mixed); }

  // --- answers
  void tell() {
    std::map<std::size_t, std::size_t> place;
    for (std::size_t at = 0; at < draws_.size(); ++at) place.emplace(wanted_[at], at);
    for (std::size_t at = 0; at < chances_.dates.size(); ++at) {
      ChanceDate& date = chances_.dates[at];
      const auto found = place.find(instant_of_date_[at]);
      if (date.state == ChanceState::drawn && found != place.end()) fill(date, draws_[found->second]);
      date.words = date_words(date);
    }
    for (ChanceOrder& order : chances_.orders) {
      if (order.state == ChanceState::drawn && !draws_.empty()) compare(order);
      order.words = order_words(order, chances_.dates, {not_after_, not_before_, things_ordered_});
    }
    if (chances_.orders.empty()) sort_dates();
  }

  void fill(ChanceDate& date, const Draws& draws) const {
    date.r_hat = split_r_hat(draws);
    date.draws = effective_draws(draws, true);
    if (date.r_hat > kGreatestRHat || date.draws < kFewestDraws) {
      date.state = ChanceState::not_mixed;
      return;
    }
    const Stretch likely = narrowest(draws, 0.95);
    date.likely_first = day_of(likely.low);
    date.likely_last = day_of(likely.high);
    date.middle = day_of(quantile(draws, 0.5));
  }

  void compare(ChanceOrder& order) const {
    Draws before = draws_[0];
    double same = 0, after = 0, total = 0;
    for (std::size_t chain = 0; chain < before.size(); ++chain)
      for (std::size_t at = 0; at < before[chain].size(); ++at) {
        const auto first = civil_from_days(day_of(draws_[0][chain][at])).year;
        const auto second = civil_from_days(day_of(draws_[1][chain][at])).year;
        before[chain][at] = first < second ? 1 : 0;
        same += first == second ? 1 : 0;
        after += first > second ? 1 : 0;
        total += 1;
      }
    order.same_year = same / total;
    order.after = after / total;
    order.before = 1 - order.same_year - order.after;
    order.r_hat = std::max({split_r_hat(draws_[0]), split_r_hat(draws_[1]), split_r_hat(before)});
    order.draws = total;
    for (const double effective :
         {effective_draws(draws_[0], true), effective_draws(draws_[1], true), effective_draws(before, false)})
      if (effective > 0) order.draws = std::min(order.draws, effective);  // 0: it does not vary at all
    if (order.r_hat > kGreatestRHat || order.draws < kFewestDraws) {
      order.state = ChanceState::not_mixed;
      return;
    }
    order.error = std::sqrt(order.before * (1 - order.before) / order.draws);
  }

  void sort_dates() {
    const auto key = [](const ChanceDate& date) {
      const Day day = date.state == ChanceState::drawn || date.state == ChanceState::certain
                          ? (date.state == ChanceState::drawn ? date.middle : *date.not_before)
                          : date.not_before.value_or(date.not_after.value_or(INT64_MAX));
      return std::tuple(date.state == ChanceState::unbounded, day, sort_key(date.record.code),
                        date.placement);
    };
    std::sort(chances_.dates.begin(), chances_.dates.end(),
              [&](const ChanceDate& a, const ChanceDate& b) { return key(a) < key(b); });
  }

  void add_cautions() {
    const TimelineNetwork& network = timeline_.network;
    const auto aside = std::count_if(network.claims.begin(), network.claims.end(),
                                     [](const NetworkClaim& claim) { return !claim.kept; });
    if (aside > 0) chances_.cautions.push_back(aside_words(static_cast<std::size_t>(aside)));
    if (!network.choices.empty()) chances_.cautions.push_back(choices_words(network.choices.size()));
    if (chances_.reading.withheld > 0)
      chances_.cautions.push_back(std::to_string(chances_.reading.withheld) +
                                  " statements are withheld; the private archive may tell otherwise.");
    if (chances_.left_out > 0) chances_.cautions.push_back(left_out_words(chances_.left_out));
  }

  const Timeline& timeline_;
  const Question& question_;
  Services& services_;
  Instants instants_;
  Chances chances_;
  std::vector<std::size_t> wanted_;
  std::vector<std::size_t> instant_of_date_;
  std::vector<Draws> draws_;
  bool not_after_ = false, not_before_ = false;
  std::size_t things_ordered_ = 0;
};

}  // namespace

Chances reckon(const Timeline& timeline, const Question& question, Services& services) {
  return Reckoner(timeline, question, services).make();
}

}  // namespace lathbook::chances
