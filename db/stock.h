// The shelf: deliveries, lots, movements, what is reserved, and what it all is worth on a day.
//
// A movement of a lot is not dated before the lot's last one (of a pooled lot: before the last of its
// material), so that the value of a past day stays what it was.
#pragma once

#include "db/workshop.h"
#include "engine/stock/stock.h"
#include "engine/stock/to_buy.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::db {

struct LotRow {
  LotId id;
  LotMark mark;
  MaterialId material;
  std::string code, name;  // the material's
  SoldBy sold_by = SoldBy::piece;
  LotSource source = LotSource::received;
  Costed costed = Costed::pool;
  Date since;
  std::string supplier, owner, job,
      parent;        // words: a customer's code, "26-014" (while it keeps the lot), "L3"; empty: none
  std::string said;  // the quantity as said: "2 packs", "50 sheets"
  Landed landed;
  std::optional<Length> height, width;
  std::optional<Thickness> thickness;
  std::string batch, shade, place, note;
  std::optional<Date> opened_on, keeps_until;  // the last day it may be used, however that is known
  Amount quantity;                             // left
  Money value;  // of what is left; of a pooled lot its share of the pool, half away
};

// --- receiving

struct ParcelLine {
  std::string code;
  Amount quantity;  // in base units
  std::string said;
  Money price;  // as said, in the parcel's currency; of the whole line
  std::optional<Length> height, width;
  std::optional<Thickness> thickness;
};
struct Parcel {
  Date on;
  std::string supplier;
  Currency currency;  // of the prices said
  ParcelTerms terms;
  std::string place, batch, shade;
  std::optional<Date> keeps_until, opened_on;
  std::string job;    // bought for this job only: its own cost, reserved for it
  std::string owner;  // a customer's code: in custody, without value
  std::vector<ParcelLine> lines;
};
// One lot a line; of skins each line is one item. Faults, all at once, by line.
Read<std::vector<LotId>> receive(Writing& writing, Parcel const& parcel);

// --- counting: what lies there against what should. More than is known is found, valued at the price said,
// else at the average of what lies there, else at the landed price in force; less is missing, taken in the
// workshop's formula. The first count of a material that never moved is its opening stock.
struct Counted {
  std::int64_t known = 0, counted = 0;  // of the material, or of the lot
  std::vector<Posting> postings;        // empty: agreed
  MovementKind kind = MovementKind::found;
  LotId lot;  // of what was found
};
Read<Counted> count(Writing& writing, std::string_view code_or_lot, Amount counted, Date on,
                    std::string_view reason, std::optional<Money> worth, std::string_view place);

Read<std::vector<Posting>> scrap(Writing& writing, std::string_view code_or_lot, Amount quantity, Date on,
                                 std::string_view reason);
// A customer's goods go back to their owner: `quantity`, or all that is left of the lot.
Read<std::vector<Posting>> hand_back(Writing& writing, std::string_view lot, std::optional<Amount> quantity,
                                     Date on, std::string_view reason);
// The value of a lot is lowered to `worth`; never raised. Of a pooled lot its share of the average is, and
// with it that of all.
Read<Posting> write_down(Writing& writing, std::string_view lot, Money worth, Date on,
                         std::string_view reason);
Read<LotRow> set_fact(Writing& writing, std::string_view lot, std::string_view fact, std::string_view value);

// --- supply
Read<std::int64_t> set_supply(Writing& writing, std::string_view code, Supply const& supply, Date valid_from);
Supply find_supply(Workshop& workshop, MaterialId material, Date on);

// --- looking
struct ShelfRow {
  MaterialId material;
  std::string code, name;
  SoldBy sold_by = SoldBy::piece;
  Amount quantity, reserved;
  Money value;
};
// As of now; with `on`, as the movements up to that day's end sum up (reserved is then 0).
std::vector<ShelfRow> shelf(Workshop& workshop, std::optional<Date> on);
std::optional<Date> last_moved_on(
    Workshop& workshop);  // the latest day of any movement; a shelf of an earlier day is past
std::optional<ShelfRow> on_hand(Workshop& workshop, std::string_view code);
std::vector<LotRow> lots(Workshop& workshop, std::optional<std::string> code,
                         bool closed_too);  // custody too
Read<LotRow> find_lot(Workshop& workshop, std::string_view mark);

struct StockValue {
  Money shelf;               // at outlay
  Money in_work;             // in jobs not yet finished: goods and work by others
  Money in_work_with_hours;  // and their hours at rate and overhead
};
StockValue stock_value(Workshop& workshop, Date on);

struct MovementRow {
  std::int64_t id = 0, entry = 0, undoes = 0;
  Date on;
  LotId lot;
  LotMark mark;
  std::string code;
  Dimension dimension = Dimension::count;
  MovementKind kind = MovementKind::used;
  std::int64_t quantity = 0, value = 0;  // signed
  std::string job, reason;
};
// Newest first.
std::vector<MovementRow> movements(Workshop& workshop, std::optional<std::string> code_or_lot, int last);

// The formula that holds; absent until the first movement (then the setting stock.formula decides).
std::optional<CostFormula> formula_in_use(Workshop& workshop);

// --- for jobs
struct TakenFor {
  std::vector<Posting> postings;
  std::int64_t missing = 0;  // wanted and not there: nothing was written
};
// From the lot named, else from those that may serve, oldest first: the job's own, its reserved ones, then
// free ones. Taking what others have reserved, or more than there is: rule_refused that says what is there
// and who has the rest.
Read<std::vector<Posting>> take_for_job(Writing& writing, std::int64_t job, std::string_view code,
                                        std::string_view lot, Amount quantity, MovementKind kind, Date on,
                                        std::string_view reason);
Read<std::vector<Posting>> give_back_from_job(Writing& writing, std::int64_t job, std::string_view code,
                                              std::string_view lot, Amount quantity, Date on);
// An offcut of `parent` (or of the lot the job took most of) back on the shelf.
Read<LotRow> keep_offcut(Writing& writing, std::int64_t job, std::string_view code, std::string_view parent,
                         Length height, Length width, Date on, std::string_view place);

// Sets aside what is free; answers what of it could not be. Of skins whole items are set aside.
struct Reserved {
  MaterialId material;
  std::string code;
  Amount wanted, reserved;
  std::vector<LotMark> items;
};
Read<Reserved> reserve(Writing& writing, std::int64_t job, MaterialId material, Amount wanted,
                       std::int64_t single_items, Date on);
void let_go(Writing& writing, std::int64_t job);  // all that is still set aside for it

}  // namespace endband::db
