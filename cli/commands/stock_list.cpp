// Lists what is on the shelf, what of it is free, and what it is worth.
#include "cli/commands/stock_list.h"

#include "cli/commands/commands.h"
#include "cli/commands/stock_parts.h"
#include "db/materials.h"

#include <algorithm>
#include <map>
#include <string>

namespace endband::cli {
namespace {

struct Asked {
  std::optional<std::string> code, place;
  bool lots = false, custody = false, used_up = false;
  bool filtered() const { return code || place || custody; }
};

using LotsOf = std::map<MaterialId, std::vector<db::LotRow>>;

LotsOf lots_asked(db::Workshop& workshop, Asked const& asked) {
  LotsOf result;
  for (db::LotRow& lot : db::lots(workshop, asked.code, asked.used_up)) {
    if (in_custody(lot) != asked.custody || (asked.place && lot.place != *asked.place)) continue;
    result[lot.material].push_back(std::move(lot));
  }
  return result;
}

void count_lots(ShelfLine& line, Date on) {
  for (db::LotRow const& lot : line.lots) {
    if (lot.quantity.n == 0) continue;
    if (lot.source == LotSource::kept) {
      ++line.offcuts;
    } else {
      ++line.whole;
      line.in_whole = line.in_whole + lot.quantity;
    }
    if (past_its_day(lot, on)) line.dead = line.dead + lot.quantity;
  }
}

// Of the whole shelf its sums are kept; of a part of it, or of a customer's goods, the lots there are summed.
void sum_lots(ShelfLine& line) {
  line.shelf.quantity.n = line.shelf.reserved.n = line.shelf.value.minor = 0;
  for (db::LotRow const& lot : line.lots) {
    line.shelf.quantity = line.shelf.quantity + lot.quantity;
    line.shelf.value += lot.value;
  }
}

ShelfLine line_of(db::ShelfRow const& row, LotsOf& lots, StockList const& list) {
  Amount const none{row.quantity.dimension, 0};
  ShelfLine line;
  line.shelf = row;
  line.free = line.dead = line.in_whole = none;
  if (auto const found = lots.find(row.material); found != lots.end()) line.lots = std::move(found->second);
  if (!list.past) count_lots(line, list.on);
  return line;
}

std::vector<ShelfLine> lines_of(db::Workshop& workshop, Asked const& asked, StockList const& list) {
  LotsOf lots = list.past ? LotsOf{} : lots_asked(workshop, asked);
  std::vector<ShelfLine> lines;
  for (db::ShelfRow const& row : db::shelf(workshop, list.past ? std::optional(list.on) : std::nullopt)) {
    if (asked.code && row.code != *asked.code) continue;
    ShelfLine line = line_of(row, lots, list);
    bool const part = asked.place || asked.custody;
    if (part) sum_lots(line);
    line.free.n = std::max<std::int64_t>(line.shelf.quantity.n - line.dead.n - line.shelf.reserved.n, 0);
    if (!part && !list.past) line.reorder_at = db::find_supply(workshop, row.material, list.on).reorder_at;
    bool const something = line.shelf.quantity.n > 0 || line.shelf.reserved.n > 0 || line.low();
    if (!something && !(asked.used_up && (!part || !line.lots.empty()))) continue;
    // The lots are told where they were asked for.
    if (list.of == ListOf::materials) line.lots.clear();
    lines.push_back(std::move(line));
  }
  return lines;
}

Read<Asked> asked_of(db::Workshop& workshop, Args const& args, Date on) {
  Asked asked;
  if (args.word_count() > 0) {
    if (auto const known = located(db::find_material(workshop, args.word(0), on), args.where("CODE")); !known)
      return tl::unexpected(known.error());
    asked.code = args.word(0);
  }
  asked.place = args.text("--place");
  asked.custody = args.has("--custody");
  asked.lots = args.has("--lots") || asked.custody;
  asked.used_up = args.has("--used-up");
  return asked;
}

// What lots hold, where they lie and what is reserved is known as it is now, not as it was.
std::optional<Fault> not_of_the_past(Args const& args, Date on, Date last) {
  for (std::string_view flag : {"--lots", "--place", "--custody", "--used-up"})
    if (args.has(flag))
      return Fault{FaultCode::contradiction,
                   args.where(flag),
                   date_text(on),
                   "no " + std::string(flag) + " for a day before the last movement, " + date_text(last) +
                       ": a past day is known by material",
                   {}};
  return std::nullopt;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto const asked = asked_of(**workshop, args, context.on);
  if (!asked) return tl::unexpected(asked.error());
  StockList list;
  list.of = asked->custody ? ListOf::custody : asked->lots ? ListOf::lots : ListOf::materials;
  list.whole = !asked->filtered();
  list.currency = (*workshop)->currency();
  list.on = context.on;
  auto const last = db::last_moved_on(**workshop);
  list.past = last && context.on < *last;
  if (list.past)
    if (auto fault = not_of_the_past(args, context.on, *last)) return refuse(std::move(*fault));
  list.lines = lines_of(**workshop, *asked, list);
  for (ShelfLine const& line : list.lines) list.outlines.merge(outlines_of(**workshop, line.lots));
  list.value = db::stock_value(**workshop, context.on);
  return Answer(std::move(list));
}

}  // namespace

Command stock_list() {
  return {
      .noun = "stock",
      .verb = "list",
      .summary = "List what is on the shelf, what of it is free, and what it is worth",
      .about =
          "Free is what is good and not reserved for a job. With --on: as it was at the end of that day. A "
          "customer's goods are never in it, but with --custody.",
      .words = {{"CODE", FlagType::material, "one material", false}},
      .flags = {{"--lots", FlagType::on, "each lot, skin and offcut by itself"},
                {"--place", FlagType::lot_place, "only what lies there"},
                {"--custody", FlagType::on, "what belongs to customers"},
                {"--used-up", FlagType::on, "also what is used up"}},
      .examples = {"stock list", "stock list goat-moss-08 --lots"},
      .refused_when = "",
      .writes = false,
      .lists = true,
      .run = run};
}

}  // namespace endband::cli
