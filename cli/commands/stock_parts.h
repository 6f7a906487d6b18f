// What the commands of the shelf share: lots and amounts in words and as JSON, and which material is meant.
#pragma once

#include "cli/command/args.h"
#include "cli/commands/money_said.h"
#include "cli/commands/stock_line.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/stock.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

// The material of a code, or of a lot by its mark. Faults: unknown_material, unknown_code, located at
// `where`.
Read<Material> material_meant(db::Workshop& workshop, std::string_view code_or_lot, Date on,
                              Where const& where);

// The words from `first` on as one quantity: both `"12 sheets"` and `12 sheets` are typed.
std::string words_from(Args const& args, std::size_t first);

std::string lot_text(db::LotRow const& lot);      // "L12"
std::string left_words(db::LotRow const& lot);    // "0.61 m2", "300 x 200 mm"
std::string origin_words(db::LotRow const& lot);  // "Osterholt Hides", "cut from K3", "found when counted"
std::string remarks(db::LotRow const& lot,
                    Date on);  // "plan chest 3, batch 7, only for 26-014, opened 2026-11-02"
bool past_its_day(db::LotRow const& lot, Date on);  // it kept until a day before `on`
bool in_custody(db::LotRow const& lot);

Json lot_json(db::LotRow const& lot);
Json landed_json(Landed const& landed);

// One material on the shelf after a command: what there is, what of it is set aside, what it is worth.
db::ShelfRow shelf_of(db::Workshop& workshop, Material const& material);  // nothing, when it never lay there
Json on_shelf_json(db::ShelfRow const& row);
void add_on_shelf(Document& document, std::vector<db::ShelfRow> const& rows, Currency currency);

// What was taken out of lots or put into them.
Json posting_json(Posting const& posting, std::vector<db::LotRow> const& lots, Currency currency);
db::LotRow const* lot_of(LotId id, std::vector<db::LotRow> const& lots);

}  // namespace endband::cli
