// The shelf: lots, what moves in and out of them, and what each movement is worth.
//
// Quantities are whole base units, values whole minor units. A unit cost is the exact ratio value / quantity
// of what is left; what a movement takes is that ratio x its quantity, rounded half away to a minor unit, and
// the rest stays in the lot: so the last taking takes all that is left, and what went in is what came out and
// what lies there, to the unit and to the minor unit.
//
// Cost formulas as IAS 2, paragraphs 23 to 27: a skin, an offcut and what was bought for one job are each at
// their own cost (specific identification); goods that are alike first in first out, or at the moving average
// of all of their material. Which of the two is the workshop's choice at its first movement, and holds from
// then on.
#pragma once

#include "engine/catalogue/catalogue.h"
#include "engine/fault/fault.h"
#include "engine/measure/measure.h"
#include "engine/money/money.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband {

enum class CostFormula : std::uint8_t { first_in_first_out, moving_average };
enum class LotSource : std::uint8_t { received, opening, found, kept, custody };
enum class Costed : std::uint8_t { own, pool };  // at its own cost, or at the average of its material

// clang-format off
enum class MovementKind : std::uint8_t {
  opening, received, found,         // in
  used, cut_away, spoiled,          // out, to a job; what the job gives back is negative
  kept,                             // in: an offcut goes on the shelf again, off the job's cost
  scrapped, missing, written_down,  // out, to nobody; written_down has no quantity
  custody, given_back,              // a customer's goods in and out, without value
};
// clang-format on
std::string_view movement_name(MovementKind kind);   // "cut-away"
std::string_view formula_name(CostFormula formula);  // "first-in-first-out", "moving-average"
std::string_view source_name(LotSource source);

// "L12", "K3": L a lot of goods that are alike, K a single item, a skin or an offcut of one.
struct LotMark {
  char letter = 'L';
  std::int64_t number = 0;
  friend auto operator<=>(LotMark const&, LotMark const&) = default;
};
std::string mark_text(LotMark mark);
Read<LotMark> read_mark(std::string_view text);  // "L12", "k3"; bad_value

struct LotId {
  std::int64_t value = 0;
  friend auto operator<=>(LotId, LotId) = default;
};

// What is left of a lot and what it is worth: of a pooled lot the value is the pool's, and 0 here.
struct LotBalance {
  LotId lot;
  Costed costed = Costed::own;
  std::int64_t quantity = 0;
  std::int64_t value = 0;
};
// All lots of a material at the average together.
struct PoolBalance {
  std::int64_t quantity = 0;
  std::int64_t value = 0;
};

// What one movement takes out of a lot, or puts into it: both >= 0.
struct Posting {
  LotId lot;
  std::int64_t quantity = 0;
  std::int64_t value = 0;
  friend bool operator==(Posting const&, Posting const&) = default;
};

// round(value x taken / quantity), half away; all of the value when all is taken. 0 <= taken <= quantity,
// else logic_error.
std::int64_t value_of_part(std::int64_t value, std::int64_t quantity, std::int64_t taken);

// Takes `wanted` out of the lots in the order given (oldest first), each as far as it goes. `pool` serves the
// pooled ones and is lowered. Fewer than wanted: what there was is taken; the caller compares sums.
std::vector<Posting> take(std::span<LotBalance const> lots, PoolBalance& pool, std::int64_t wanted);

// What a job holds of one lot: what it took less what it gave back.
struct Held {
  LotId lot;
  std::int64_t quantity = 0;
  std::int64_t value = 0;
};
// Gives `quantity` back, the last taken first, at the value it was taken at, by parts as value_of_part. More
// than is held: what was held is given; the caller compares sums.
std::vector<Posting> give_back(std::span<Held const> held_newest_first, std::int64_t quantity);

// An offcut's one value, stated at cutting: kept_worth x its share of what the job holds of the lot, half
// away. It comes off the job, and is never written up. 0 < quantity <= held.quantity and 0 <= kept_worth <=
// 1, else logic_error.
std::int64_t kept_value(Held const& held, std::int64_t quantity, Ratio kept_worth);

// How much of a material counted as `material` says an offcut of this size is: its area; of a sheet its share
// in thousandths, of a roll its length (the area / the roll's width); rounded down, at least one unit.
// Faults: missing_property (no sheet size or width), does_not_fit (larger than the sheet, both sides wider
// than the roll), out_of_range (a side of nothing), wrong_unit (a material without a size: thread, glue).
Read<Amount> offcut_amount(Material const& material, Length height, Length width);

// What a parcel's lines cost once they lie on the shelf. Each line's price is exchanged once (half away);
// carriage is shared over the lines in proportion to their prices (equal shares when all are 0) by the
// largest remainder; duty, tax and the tax borne are rounded for each line as in landed_cost.
struct ParcelTerms {
  Ratio rate = 1;  // workshop units for one unit of the price said
  Money carriage;  // of the whole parcel, in the workshop's currency
  Ratio duty, purchase_tax;
  Ratio tax_recovered;
};
std::vector<Landed> landed_parcel(std::span<Money const> said, ParcelTerms const& terms, Currency currency);

}  // namespace endband
