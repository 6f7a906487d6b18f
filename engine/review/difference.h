// What was left of a job against what was quoted to be left, split into parts that sum to the whole exactly.
#pragma once

#include "engine/job/job.h"
#include "engine/review/sale.h"

#include <optional>
#include <string>
#include <vector>

namespace endband {

// Textbook variances, signed as costs: less than nothing is in the maker's favour. Exact, of prices a unit or
// rates an hour: (actual - standard) x actual quantity; (actual - standard quantity) x standard price.
// (OpenStax, Principles of Accounting 2, chapter 8.)
Ratio price_variance(Ratio actual_quantity, Ratio actual_price, Ratio standard_price);
Ratio quantity_variance(Ratio actual_quantity, Ratio standard_quantity, Ratio standard_price);

// What a job took of a material on a day, positive; given back and kept are negative.
struct TakenOn {
  MaterialId material;
  Date on;
  std::int64_t quantity = 0, spoiled = 0;  // spoiled: of the quantity
  Money value;                             // posted
  std::optional<UnitCost> price;           // landed, of that day; none: nothing said what it cost then
};

enum class Because : std::uint8_t {
  material_price,  // since the quote: landed price of the day of use against the quoted
  holding,         // what lay on the shelf cost another price than that of the day of use
  quantity,        // used and cut away
  spoil,
  rate,           // hours as paid against the rates quoted, overtime
  time,           // hours at the quoted rates
  time_overhead,  // hours at the quoted overhead
  outside,        // work by others
  fees,
  carriage,
  allowances,  // for ruin, work done again, contingency, returns: none was needed, or more
  variations,  // changes agreed
  exchange,
  tax,
  given_away,  // agreed below the price quoted
  rounding,
};
std::string_view because_name(Because because);

// Signed as money left: less than nothing was lost.
struct DifferenceLine {
  Because because;
  Money amount;
};
// The same by what did it: a material, a step or part, a bill.
struct DifferenceDetail {
  Because because;
  std::optional<MaterialId> material;
  std::optional<OperationKind> operation;
  std::optional<Part> part;
  std::string words;     // work by others
  Amount quoted, taken;  // of the material
  Duration quoted_time, worked_time;
  Money amount;  // rounded half away; the parts' rounding stands under `rounding`
};
struct Difference {
  Money left_quoted, left;                // difference = left - left_quoted
  std::vector<DifferenceLine> lines;      // every Because, in its order; sums to the difference
  std::vector<DifferenceDetail> details;  // largest first, whatever its sign
};

struct AgreedFirst {  // what was agreed on before any change
  Money price, left;  // without tax; what it was quoted to leave
};
// `agreed`: the quote agreed on last; `price`: agreed last, without tax, and `kept` of it.
struct JobToReview {
  FrozenQuote const& agreed;
  JobRecord const& record;
  std::vector<TakenOn> const& taken;
  SaleTaken const& sale;
  AgreedFirst first;
  Money price, kept;
};
// Hours are valued at the rate and overhead agreed on, as actual_cost does; materials as posted.
Difference difference_of(JobToReview const& job);

}  // namespace endband
