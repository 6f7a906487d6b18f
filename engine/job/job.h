// A job: what was agreed, what it has really taken so far, what that cost, what keeps it from being finished,
// what a change of it costs and what is settled when it is called off.
#pragma once

#include "engine/commission/commission.h"
#include "engine/stock/stock.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace endband {

// What a job holds of a material: the sums of its movements, quantities as positive.
struct Holding {
  MaterialId material;
  Dimension dimension = Dimension::count;
  std::int64_t used = 0, cut_away = 0, spoiled = 0, kept = 0;  // kept: offcuts that went back on the shelf
  Money value;                                                 // posted: taken less given back less kept
  std::int64_t quantity() const { return used + cut_away + spoiled - kept; }
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
  std::vector<Holding> taken;       // by material id
  std::vector<MaterialId> without;  // said to be not needed after all
  std::vector<Worked> worked;
  std::vector<Billed> billed;
  std::vector<Gate> gates;    // held and not yet approved
  Money paid;                 // by the customer, less what was given back
  Money to_pay;               // agreed, with tax and carriage
  bool custody_here = false;  // goods of the customer's that were not given back yet
};

// Cost so far: materials at the values posted, all hours at the rate and at the overhead of the quote agreed
// on (each of the two products rounded once, half away), work by others as billed.
struct ActualCost {
  Money materials, labour, overhead, outside, total;
  Duration time;
};
ActualCost actual_cost(FrozenQuote const& agreed, JobRecord const& record);

// Tax on a price without tax by the rules of a quote; of several rates, what they come to on the whole of it.
Ratio mean_tax_rate(FrozenQuote const& quote);

// What the sale itself takes of the price without tax, as it was quoted: the outlet's fees, exchange, cash
// rounding. Nothing where the workshop sells the book itself.
Money sale_costs(FrozenQuote const& agreed);

// What a job has cost as a cost sheet that a price can be found for: without lines, its parts sharing the
// price as they were quoted to. Its outlay is nothing: what the book took is spent, sold or not.
CostSheet sheet_as_made(FrozenQuote const& agreed, JobRecord const& record);

// Quoted beside actual, of each material and of each operation or part.
struct MaterialBeside {
  MaterialId material;
  Amount quoted;  // charged to the quote
  Money quoted_cost;
  Amount taken;  // by the job
  Money taken_value;
};
struct WorkBeside {
  std::optional<OperationKind> operation;  // of an operation
  std::optional<Part> part;                // or of all operations of a part, when hours were told by part
  Duration quoted, worked;
};
// Hours told by part stand against all quoted operations of that part, all else operation by operation.
// Quoted times are whole seconds that sum to the quote's mean time, rounded once, half away.
std::vector<MaterialBeside> materials_beside(FrozenQuote const& agreed,
                                             JobRecord const& record);  // quote's order, then the unquoted
std::vector<WorkBeside> work_beside(FrozenQuote const& agreed, JobRecord const& record);

// What keeps a job from being finished, each by name.
enum class OpenPoint : std::uint8_t {
  gate,      // waits for approval: its name
  material,  // quoted, and neither taken nor said to be without: its code
  no_time,   // no hours at all
  outside,   // quoted work by others without a bill: its words
  custody,   // the customer's goods are still here
};
struct StillOpen {
  OpenPoint what;
  std::string name;
};
// A bill is of the quoted work whose words it bears, capital letters or small. What the customer supplies is
// not asked for, nor hours where none were quoted.
std::vector<StillOpen> still_open(FrozenQuote const& agreed, JobRecord const& record);

// How much of a material a job is to have: what is consumed of one charged as used, else what is opened.
Amount needed(BillLine const& line);

// A change of the book, priced against today: what the new book would cost on today's prices less what the
// old one would, and what was already taken, worked or billed that the new book has no use for. Of a
// material: what the job holds beyond what the new book needs, but no more than the old one needed, at the
// value posted; of an operation (or of a part, where hours were told so): the hours worked beyond those of
// the new book, likewise, at rate and overhead; of work by others: what was billed, no more than was quoted,
// for work that the new book does not have. All is raised to a price by the goal agreed on, but for what
// stands at cost.
struct Change {
  Money old_cost, new_cost;  // of today
  Money thrown_goods, thrown_hours, thrown_outside;
  Money thrown_price;  // charged for the three
  Money difference;    // of the price without tax, thrown_price in; negative when the book becomes cheaper
  Money price;         // the new agreed price without tax
};
// Faults: rule_refused when the price would fall below nothing; bad_goal.
Read<Change> priced_change(FrozenQuote const& agreed, Money agreed_price, CostSheet const& old_today,
                           FrozenQuote const& now, JobRecord const& record);
// What is to pay after a change, with tax and carriage as the new issue has them; `to_pay` is what was
// before. Added tax is taken anew on the whole; a gross price moves by the gross difference, so that no
// change changes nothing.
Money to_pay_after(FrozenQuote const& agreed, Money to_pay, FrozenQuote const& now, Change const& change);

// Called off: the workshop keeps what it cost so far (or what it says), the rest of what was paid goes back.
//   paid = keeps + tax + to_give_back - still_due
struct Settlement {
  ActualCost cost;
  Money keeps;  // without tax
  Money tax;    // on it, by the rules of the quote, half away
  Money paid;
  Money to_give_back, still_due;  // one of them is 0
};
Settlement settle_cancelled(FrozenQuote const& agreed, JobRecord const& record, std::optional<Money> keeps);

}  // namespace endband
