// Ready by which day, and how sure.
#include "engine/chance/three_points.h"
#include "engine/labour/hours.h"
#include "engine/promise/hours.h"
#include "engine/promise/promise.h"
#include "engine/schedule/calendar.h"

#include <algorithm>
#include <cmath>

namespace endband {
namespace {

using schedule::Time;

double square(double x) { return x * x; }
double seconds_of(Ratio seconds) {
  return static_cast<double>(seconds.num()) / static_cast<double>(seconds.den());
}

// Of what is left of a line, as much deviates as of the whole.
struct Variances {
  double hands = 0, waits = 0;
};
Variances variances_of(WorkLine const& line, Time left) {
  double const mean = seconds_of(line.mean_seconds);
  double const share = mean > 0 ? static_cast<double>(left) / mean : 0;
  double const wait = static_cast<double>(line.wait_high.n - line.wait_low.n);
  return {hours_of(line).variance * square(share), square(wait) / 12};
}

// How much later than the plan a quantile is.
class Later {
 public:
  Later(Variances of, schedule::Calendar hours, Time ready)
      : of_(of), hours_(std::move(hours)), ready_(ready) {}

  double deviation() const { return std::sqrt(of_.hands + of_.waits); }

  // The moment that many deviations, z >= 0, after the plan's.
  Time moment(double z) const {
    double const sigma = deviation();
    if (sigma <= 0 || z <= 0) return ready_;
    auto const work = static_cast<Time>(std::ceil(z * of_.hands / sigma));
    auto const wait = static_cast<Time>(std::ceil(z * of_.waits / sigma));
    // The last of it is hands: a parcel is packed in somebody's hours. Beyond the calendars there is no
    // telling: around the clock, then.
    Time const from = ready_ + wait;
    Time const end = schedule::work_ends(hours_, from, std::max<Time>(work, 1));
    return end == schedule::never ? from + work : end;
  }

 private:
  Variances of_;
  schedule::Calendar hours_;
  Time ready_;
};

int last_task(BenchPlan const& plan, std::vector<BenchOrder> const& orders, int order, Time ready) {
  for (std::size_t i = plan.tasks.size(); i-- > 0;) {
    BenchTask const& task = plan.tasks[i];
    if (task.order == order && counts_for_ready(orders, task) && plan.plan.tasks[i].finish == ready)
      return static_cast<int>(i);
  }
  return -1;
}

// Whose hours a delay at the end takes: of the last in the chain that has hands.
schedule::Calendar hours_at_end(BenchPlan const& plan, schedule::Chain const& chain) {
  for (auto link = chain.links.rbegin(); link != chain.links.rend(); ++link) {
    int const hands = plan.plan.tasks[static_cast<std::size_t>(link->task)].hands;
    if (hands < 0) continue;
    int const calendar = plan.project.resources[static_cast<std::size_t>(hands)].calendar;
    if (calendar >= 0) return plan.project.calendars[static_cast<std::size_t>(calendar)];
  }
  return {{0, schedule::never}};
}

Later later_of(BenchPlan const& plan, std::vector<BenchOrder> const& orders, ReadyBy const& ready) {
  Variances sum;
  for (schedule::ChainLink const& link : ready.chain.links) {
    BenchTask const& task = plan.tasks[static_cast<std::size_t>(link.task)];
    if (task.kind != TaskKind::operation) continue;
    WorkLine const& line =
        orders[static_cast<std::size_t>(task.order)].work.lines[static_cast<std::size_t>(task.source)];
    Variances const of = variances_of(line, plan.project.tasks[static_cast<std::size_t>(link.task)].work);
    sum.hands += of.hands;
    sum.waits += of.waits;
  }
  return {sum, hours_at_end(plan, ready.chain), ready.ready};
}

// What was placed after an order filled its gaps, and kept it from nothing.
schedule::Plan without_later(BenchPlan const& plan, int order) {
  std::vector<bool> is_later(plan.sequence.size());
  for (auto later = plan.sequence.rbegin(); later != plan.sequence.rend() && *later != order; ++later)
    is_later[static_cast<std::size_t>(*later)] = true;
  schedule::Plan earlier = plan.plan;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    if (is_later[static_cast<std::size_t>(plan.tasks[i].order)])
      earlier.tasks[i] = {schedule::never, schedule::never, schedule::never, -1};
  return earlier;
}

Duration hands_of(BenchPlan const& plan, int order) {
  Duration sum;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    if (plan.tasks[i].order == order && !plan.project.tasks[i].hands.empty())
      sum += Duration{plan.project.tasks[i].work};
  return sum;
}

}  // namespace

bool counts_for_ready(std::vector<BenchOrder> const& orders, BenchTask const& task) {
  if (task.kind != TaskKind::operation) return true;
  OperationKind const kind =
      orders[static_cast<std::size_t>(task.order)].work.lines[static_cast<std::size_t>(task.source)].kind;
  return kind != OperationKind::post_parcel && kind != OperationKind::keep_accounts;
}

std::optional<Time> ready_at(BenchPlan const& plan, std::vector<BenchOrder> const& orders, int order) {
  std::optional<Time> ready;
  for (std::size_t i = 0; i < plan.tasks.size(); ++i)
    if (plan.tasks[i].order == order && counts_for_ready(orders, plan.tasks[i]))
      ready = std::max(ready.value_or(0), plan.plan.tasks[i].finish);
  return ready;
}

Date day_of(BenchNow now, Time moment) {
  // What ends at midnight ends on the evening before.
  return now.on + std::chrono::days(std::max<Time>(0, moment - 1) / day_seconds);
}

std::optional<ReadyBy> ready_by(std::vector<BenchOrder> const& orders, BenchPlan const& plan, int order) {
  auto const moment = ready_at(plan, orders, order);
  if (!moment) return std::nullopt;
  ReadyBy ready;
  ready.ready = *moment;
  ready.hands = hands_of(plan, order);
  ready.chain = schedule::critical_chain(plan.project, without_later(plan, order),
                                         last_task(plan, orders, order, *moment));
  Later const later = later_of(plan, orders, ready);
  ready.deviation_s = later.deviation();
  ready.half = day_of(plan.now, *moment);
  ready.four_fifths = day_of(plan.now, later.moment(normal_quantile(0.8)));
  ready.sure = day_of(plan.now, later.moment(normal_quantile(0.95)));
  return ready;
}

double chance_by(std::vector<BenchOrder> const& orders, BenchPlan const& plan, ReadyBy const& ready,
                 Date day) {
  Time const evening = ((day - plan.now.on).count() + 1) * day_seconds;
  Later const later = later_of(plan, orders, ready);
  if (later.deviation() <= 0) return ready.ready <= evening ? 1 : 0;
  if (evening < ready.ready) {
    // Before the plan's day the hours that are open do not tell: by the clock.
    auto const one = static_cast<double>(later.moment(1) - ready.ready);
    return normal_cdf(static_cast<double>(evening - ready.ready) / std::max(one, 1.0));
  }
  double low = 0, high = 6;
  for (int i = 0; i < 50; ++i) {
    double const middle = (low + high) / 2;
    (later.moment(middle) <= evening ? low : high) = middle;
  }
  return normal_cdf(low);
}

}  // namespace endband
