// Operations x the step library: times as low / likely / high, their mean, and the waits that block the book.
#pragma once

#include "engine/bill/bill.h"
#include "engine/book/structure.h"
#include "engine/labour/bench.h"
#include "engine/labour/learning.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace endband {

struct Spread3 {  // low <= likely <= high
  Duration low, likely, high;
};

struct Step {  // one immutable version of a step of the workshop's library
  std::int64_t version = 0;
  OperationKind kind;
  Spread3 set_up;                // once a book
  Spread3 each;                  // for one of its driver
  Duration wait_low, wait_high;  // after it: blocks the book, not the person
  std::string caution;           // shown beside the step; may be empty
  std::vector<std::string> who;  // codes of those who may do it, the usual one first; empty: anyone
  std::string place;  // code of the press or drying place it holds, through its wait too; empty: none
  std::vector<OperationKind> after;  // beside the engine's own order, which it never takes away
};
struct StepLibrary {
  std::vector<Step> steps;  // by kind
  Step const* find(OperationKind kind) const;
};

// The same by kind: a look-up for whoever asks of many.
class StepIndex {
 public:
  explicit StepIndex(StepLibrary const& library);  // which must outlive it
  Step const* find(OperationKind kind) const { return steps_.at(static_cast<std::size_t>(kind)); }

 private:
  std::array<Step const*, operation_count> steps_{};
};
// The first circle in the bench's order with what the library adds to it, each step coming after the one
// before; empty: none.
std::vector<OperationKind> circle_of(StepLibrary const& library);

struct WorkRules {
  // Enquiries for each order won: time of enquiries that came to nothing is paid by those that did. 1 when
  // lost enquiries sit in the overhead.
  Ratio enquiries_an_order = 1;
  // Of the run time (count x each) of what is done for every copy: never of a set-up, of what is done once
  // for all copies, of the office or the parcel.
  LearningCurve learning = {};
};

struct WorkLine {
  OperationKind kind;
  Part part;
  std::int64_t step_version = 0;  // 0: extra work of the description
  Count count;
  Ratio mean_seconds;  // (low + 4 likely + high) / 6 of set-up + count x each; exact
  Ratio low_seconds, high_seconds;
  Duration wait_low, wait_high;
  std::string words;          // extra work: the description's own
  std::optional<Money> rate;  // an hour, of the first of the step's people who is here; none: the workshop's
};
struct Work {
  std::vector<WorkLine> lines;  // in the order of the operations
  Ratio mean_seconds() const;
};

// Hours told of an operation, or of a part where nothing finer was said.
struct Worked {
  std::optional<OperationKind> operation;
  std::optional<Part> part;
  Duration time;
  bool finished = false;  // said to be: nothing of it is left, however long it took
};

// The mean of three points by the trade's rule, (low + 4 x likely + high) / 6: 6, 8, 16 h is 9 h. (PERT;
// Malcolm, Roseboom, Clark and Fazar 1959, from memory.)
Ratio mean_of(Spread3 const& times);

// In the order of the operations; a step's set-up is taken once, with its first operation. Where copies are
// learned by, their run time is that of one copy x learned_total, rounded half away to 1/6000 s (the mean) or
// 1/1000 s (low, high). `structure` is of all `copies`. A code in Step::who that the bench does not know has
// no rate. Faults: missing_step, one for each operation the library does not time. Throws Overflow, and
// std::logic_error for less than one copy or a curve that is not valid.
Read<Work> work_for(Structure const& structure, BookSpec const& spec, StepLibrary const& library,
                    WorkRules const& rules, Bench const& bench = {}, int copies = 1);

}  // namespace endband
