// A job: what was agreed, what it has really taken so far, what that cost, what keeps it from being finished, what a
// change of it costs and what is settled when it is called off.
#pragma once

#include "engine/commission/commission.h"
#include "engine/stock/stock.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace endband {

// What a job holds of a material: the sums of its movements, quantities as positive.
struct Taken {
  MaterialId material;
  std::int64_t used = 0, cut_away = 0, spoiled = 0, kept = 0;  // kept: offcuts that went back on the shelf
  Money value;                                                 // posted: taken less given back less kept
  std::int64_t quantity() const { return used + cut_away + spoiled - kept; }
};

// Hours worked on an operation, or on a part where nothing finer was said.
struct Worked {
  std::optional<OperationKind> operation;
  std::optional<Part> part;
  Duration time;
};

struct Billed {  // work by other hands
  std::string words;
  Money price;
};

struct Gate {  // waits for the customer's word
  std::string name;
  Date since;
};

// Everything recorded of a job, as of now.
struct JobRecord {
  std::vector<Taken> taken;            // by material id
  std::vector<MaterialId> without;     // said to be not needed after all
  std::vector<Worked> worked;
  std::vector<Billed> billed;
  std::vector<Gate> gates;             // held and not yet approved
  Money paid;                          // by the customer, less what was given back
  Money to_pay;                        // agreed, with tax and carriage
  bool custody_here = false;           // goods of the customer's that were not given back yet
};

// Cost so far: materials at the values posted, hours at the rate and overhead of the quote agreed on (each product
// rounded once, half away), work by others as billed.
struct ActualCost {
  Money materials, labour, overhead, outside, total;
  Duration time;
};
ActualCost actual_cost(FrozenQuote const& agreed, JobRecord const& record);

// Quoted beside actual, of each material and of each operation or part.
struct MaterialBeside {
  MaterialId material;
  Amount quoted;       // charged to the quote
  Money quoted_cost;
  Amount taken;        // by the job
  Money taken_value;
};
struct WorkBeside {
  std::optional<OperationKind> operation;  // of an operation
  std::optional<Part> part;                // or of all operations of a part, when hours were told by part
  Duration quoted, worked;
};
std::vector<MaterialBeside> materials_beside(FrozenQuote const& agreed, JobRecord const& record);  // quote's order, then the unquoted
std::vector<WorkBeside> work_beside(FrozenQuote const& agreed, JobRecord const& record);

// What keeps a job from being finished, each by name.
enum class OpenPoint : std::uint8_t {
  gate,         // waits for approval: its name
  material,     // quoted, and neither taken nor said to be without: its code
  no_time,      // no hours at all
  outside,      // quoted work by others without a bill: its words
  custody,      // the customer's goods are still here
};
struct StillOpen {
  OpenPoint what;
  std::string name;
};
std::vector<StillOpen> still_open(FrozenQuote const& agreed, JobRecord const& record);

// A change of the book, priced against today: what the new book would cost on today's prices less what the old one
// would, and what was already taken or worked that the new book has no use for. Of a material: what the job holds beyond
// what the new book needs, but no more than the old one needed, at the value posted; of an operation: the hours worked
// beyond those of the new book, likewise, at rate and overhead. Both sums are raised to a price by the goal agreed on.
struct Change {
  Money old_cost, new_cost;   // of today
  Money thrown_goods, thrown_hours;
  Money difference;           // of the price without tax: goods; negative when the book becomes cheaper
  Money price;                // the new agreed price without tax
};
Read<Change> priced_change(FrozenQuote const& agreed, Money agreed_price, CostSheet const& old_today,
                           FrozenQuote const& now, JobRecord const& record);

// Called off: the workshop keeps what it cost so far (or what it says), the rest of what was paid goes back.
struct Settlement {
  ActualCost cost;
  Money keeps;       // without tax
  Money tax;         // on it, by the quote's rules
  Money paid;
  Money to_give_back, still_due;  // one of them is 0
};
Settlement settle_cancelled(FrozenQuote const& agreed, JobRecord const& record, std::optional<Money> keeps);

}  // namespace endband
