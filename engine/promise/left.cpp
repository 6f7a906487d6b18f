#include "engine/promise/left.h"

#include <algorithm>
#include <cstddef>

namespace endband {
namespace {

std::size_t index_of(OperationKind kind) { return static_cast<std::size_t>(kind); }

schedule::Time mean_of_line(WorkLine const& line) { return round(line.mean_seconds, Rounding::up); }

// Hours told of a part are taken as worked on its operations in the order of the bench.
class Told {
 public:
  Told(Work const& work, std::vector<Worked> const& worked) : work_(work), told_(work.lines.size()) {
    for (Worked const& row : worked) take(row);
  }
  bool finished(std::size_t line) const { return told_[line].finished; }
  bool begun(std::size_t line) const { return told_[line].finished || told_[line].seconds > 0; }
  schedule::Time seconds(std::size_t line) const { return told_[line].seconds; }

 private:
  struct Line {
    schedule::Time seconds = 0;
    bool finished = false;
  };

  static bool meant(WorkLine const& line, Worked const& row) {
    return row.operation ? line.kind == *row.operation : line.part == *row.part;
  }

  void take(Worked const& row) {
    schedule::Time rest = row.time.n;
    for (std::size_t i = 0; i < work_.lines.size(); ++i) {
      if (!meant(work_.lines[i], row)) continue;
      Line& line = told_[i];
      schedule::Time const open = std::max<schedule::Time>(0, mean_of_line(work_.lines[i]) - line.seconds);
      schedule::Time const here = std::min(rest, open);
      line.seconds += here;
      rest -= here;
      if (row.finished || (row.time.n > 0 && here == open)) line.finished = true;
      if (rest == 0 && !row.finished) return;
    }
  }

  Work const& work_;
  std::vector<Line> told_;
};

// Marks all that comes before an operation that was begun.
void mark_before(OperationKind kind, StepOrder const& order, std::bitset<operation_count>& past) {
  for (OperationKind const before : order.before(kind)) {
    if (past[index_of(before)]) continue;
    past.set(index_of(before));
    mark_before(before, order, past);
  }
}

}  // namespace

std::bitset<operation_count> operations_of(Work const& work) {
  std::bitset<operation_count> present;
  for (WorkLine const& line : work.lines) present.set(index_of(line.kind));
  return present;
}

std::vector<LineLeft> what_is_left(BenchOrder const& order, StepLibrary const& library) {
  Told const told(order.work, order.worked);
  StepOrder const steps(library, operations_of(order.work));
  std::bitset<operation_count> past;
  // The clock starts when the order is there and the proof approved: what has neither waits for its customer.
  past.set(index_of(OperationKind::answer_enquiry));
  past.set(index_of(OperationKind::draw_proof));
  for (std::size_t i = 0; i < order.work.lines.size(); ++i)
    if (told.begun(i)) mark_before(order.work.lines[i].kind, steps, past);

  std::vector<LineLeft> left(order.work.lines.size());
  for (std::size_t i = 0; i < left.size(); ++i) {
    WorkLine const& line = order.work.lines[i];
    bool const setting = told.finished(i) && line.wait_high.n > 0;
    left[i].to_do = !past[index_of(line.kind)] && (!told.finished(i) || setting);
    if (left[i].to_do && !told.finished(i)) left[i].work = mean_of_line(line) - told.seconds(i);
  }
  return left;
}

}  // namespace endband
