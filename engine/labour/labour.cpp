#include "engine/labour/labour.h"

#include "engine/book/copies.h"
#include "engine/book/operation.h"
#include "engine/book/precedence.h"
#include "engine/labour/seconds.h"

#include <array>
#include <bitset>
#include <cstddef>
#include <utility>

namespace endband {
namespace {

std::size_t index_of(OperationKind kind) { return static_cast<std::size_t>(kind); }

// low + 4 x likely + high: six times the mean.
std::int64_t sixths(Spread3 const& times) {
  return checked_add(checked_add(times.low.n, checked_mul(4, times.likely.n)), times.high.n);
}

// What the run time of all copies is multiplied by: learned total / copies, as two whole numbers.
struct Learned {
  std::int64_t num = 1, den = 1;
};

Learned learned_by(int copies, LearningCurve const& curve) {
  Ratio const total = learned_total(curve, copies);  // refuses less than one copy
  return {total.num(), checked_mul(total.den(), copies)};
}

// A frame serves all copies of a volume, though each volume has its own (engine/book/copies.h).
bool done_for_each_copy(OperationKind kind) {
  Part const part = operation_row(kind).part;
  return !once_an_order(kind) && kind != OperationKind::set_up_frame && part != Part::office &&
         part != Part::packing;
}

// (set_up + each x count, learned) / parts, in seconds. Whole seconds are common and need no reduction. What
// is learned is rounded to 1 / (1000 x parts) s, so that sums of many times stay short fractions.
Ratio seconds(std::int64_t set_up, std::int64_t each, Count count, Learned learned, std::int64_t parts) {
  std::int64_t run = checked_mul(each, count.n);
  if (learned.num != learned.den) run = mul_div(run, learned.num, learned.den, Rounding::half_away);
  std::int64_t const num = checked_add(checked_mul(set_up, 1000), run);
  std::int64_t const den = 1000 * parts;
  return num % den == 0 ? Ratio(num / den) : Ratio(num, den);
}

void set_times(WorkLine& line, Spread3 const& set_up, Spread3 const& each, Learned of_copies) {
  Learned const learned = done_for_each_copy(line.kind) ? of_copies : Learned{};
  line.mean_seconds = seconds(sixths(set_up), sixths(each), line.count, learned, 6);
  line.low_seconds = seconds(set_up.low.n, each.low.n, line.count, learned, 1);
  line.high_seconds = seconds(set_up.high.n, each.high.n, line.count, learned, 1);
}

std::optional<Money> rate_of(Step const& step, Bench const& bench) {
  for (std::string const& code : step.who)
    if (Person const* const person = bench.person(code)) return person->rate;
  return std::nullopt;
}

// Every enquiry takes its whole time, set-up too, whether an order comes of it or not.
void pay_lost_enquiries(WorkLine& line, Ratio enquiries_an_order) {
  line.count = scale(line.count, enquiries_an_order, Rounding::half_away);
  line.mean_seconds = line.mean_seconds * enquiries_an_order;
  line.low_seconds = line.low_seconds * enquiries_an_order;
  line.high_seconds = line.high_seconds * enquiries_an_order;
}

WorkLine line_of(Operation const& operation) {
  WorkLine line;
  line.kind = operation.kind;
  line.part = operation.part;
  line.count = operation.count;
  return line;
}

// Work that the description times itself; its row is an ExtraWork or a Repair.
template <class Row>
WorkLine own_line(Operation const& operation, std::vector<Row> const& rows, Learned learned) {
  Row const& row = rows.at(static_cast<std::size_t>(operation.extra));
  WorkLine line = line_of(operation);
  line.words = row.words;
  set_times(line, Spread3{}, {row.low, row.likely, row.high}, learned);
  return line;
}

WorkLine step_line(Operation const& operation, Step const& step, bool with_set_up, Learned learned) {
  WorkLine line = line_of(operation);
  line.step_version = step.version;
  line.wait_low = step.wait_low;
  line.wait_high = step.wait_high;
  set_times(line, with_set_up ? step.set_up : Spread3{}, step.each, learned);
  return line;
}

Fault no_times(OperationKind kind) {
  std::string const name(operation_row(kind).name);
  return {FaultCode::missing_step, {.source = "steps", .field = name}, "", "times for the step " + name, {}};
}

}  // namespace

Step const* StepLibrary::find(OperationKind kind) const {
  for (Step const& step : steps)
    if (step.kind == kind) return &step;
  return nullptr;
}

StepIndex::StepIndex(StepLibrary const& library) {
  for (Step const& step : library.steps) steps_.at(index_of(step.kind)) = &step;
}

std::vector<OperationKind> circle_of(StepLibrary const& library) {
  std::vector<std::vector<OperationKind>> after(operation_count);
  for (Step const& step : library.steps) after.at(index_of(step.kind)) = step.after;
  return circle_in(after);
}

Ratio Work::mean_seconds() const {
  SecondsSum sum;
  for (WorkLine const& line : lines) sum.add(line.mean_seconds);
  return sum.total();
}

Ratio mean_of(Spread3 const& times) { return {sixths(times), 6}; }

Read<Work> work_for(Structure const& structure, BookSpec const& spec, StepLibrary const& library,
                    WorkRules const& rules, Bench const& bench, int copies) {
  StepIndex const steps(library);
  Learned const learned = learned_by(copies, rules.learning);
  std::bitset<operation_count> seen;
  std::vector<Fault> faults;
  Work work;
  work.lines.reserve(structure.operations.size());
  for (Operation const& operation : structure.operations) {
    if (operation.kind == OperationKind::extra_work) {
      work.lines.push_back(own_line(operation, spec.extra_work, learned));
      continue;
    }
    if (operation.kind == OperationKind::other_repair) {
      work.lines.push_back(own_line(operation, spec.repairs, learned));
      continue;
    }
    bool const first = !seen[index_of(operation.kind)];
    seen.set(index_of(operation.kind));
    Step const* const step = steps.find(operation.kind);
    if (step == nullptr) {
      if (first) faults.push_back(no_times(operation.kind));
      continue;
    }
    WorkLine line = step_line(operation, *step, first, learned);
    line.rate = rate_of(*step, bench);
    if (operation_row(operation.kind).driver == Driver::enquiry)
      pay_lost_enquiries(line, rules.enquiries_an_order);
    work.lines.push_back(std::move(line));
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return work;
}

}  // namespace endband
