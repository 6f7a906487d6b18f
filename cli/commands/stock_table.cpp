// What lies on the shelf, out to a spreadsheet; and a count of it in from one, row by row as stock count
// does.
#include "cli/commands/commands.h"
#include "cli/commands/spreadsheet_columns.h"
#include "cli/commands/spreadsheets.h"
#include "cli/commands/stock_parts.h"
#include "cli/forms/exact.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace endband::cli {

std::vector<SpreadsheetColumn> stock_columns(bool by_lot) {
  return {{{"--code", FlagType::code, "the material's code"}, true},
          {{"--lot", FlagType::words, "one lot of it, such as K3; else all of it"}, false, by_lot},
          {{"--quantity", FlagType::quantity, "what lies there: \"12 sheets\"; 0 for nothing"}, true},
          {{"--worth", FlagType::money,
            "all of it, in the workshop's money; of what was not known, that is new"}},
          {{"--place", FlagType::words, "where it lies"}},
          {{"--reason", FlagType::words, "why it differs, when one knows"}, false, false}};
}

namespace {

bool whole_goods(db::LotRow const& lot) { return lot.source != LotSource::kept && !in_custody(lot); }

// One row of a table: a lot, or all whole goods of a material that is no skin.
struct Lying {
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  std::string lot;  // empty: all of it
  Amount quantity;
  Money worth;
  std::vector<db::LotRow> lots;
  std::string place() const {  // empty: of several
    auto const same = [&](db::LotRow const& lot_) { return lot_.place == lots.front().place; };
    return !lots.empty() && std::ranges::all_of(lots, same) ? lots.front().place : std::string();
  }
};

Lying lying(db::LotRow const& lot) {
  return {lot.code, lot.sold_by, lot_text(lot), lot.quantity, lot.value, {lot}};
}

// The shelf by the code: of a skin, item by item.
class Shelf {
 public:
  explicit Shelf(db::Workshop& workshop) : currency_(workshop.currency()) {
    for (db::ShelfRow const& row : db::shelf(workshop, std::nullopt)) values_[row.code] = row.value;
    for (db::LotRow& lot : db::lots(workshop, std::nullopt, false)) {
      if (in_custody(lot)) continue;
      if (!whole_goods(lot)) values_[lot.code] = values_[lot.code] - lot.value;
      lots_[lot.code].push_back(std::move(lot));
    }
  }

  std::vector<db::LotRow> const& lots(std::string const& code) { return lots_[code]; }

  // All whole goods of it. Their worth is what the shelf's is without the offcuts: no share of an average.
  Lying all(Material const& material) {
    Lying all{material.code, material.sold_by, "", {dimension_of(material.sold_by), 0}, {0, currency_}, {}};
    for (db::LotRow const& lot : lots_[material.code]) {
      if (!whole_goods(lot)) continue;
      all.quantity = all.quantity + lot.quantity;
      all.lots.push_back(lot);
    }
    if (!all.lots.empty()) all.worth = values_.at(material.code);
    return all;
  }

  std::vector<Lying> rows(db::Workshop& workshop, Date on, bool by_lot) {
    std::vector<Lying> rows;
    for (Material const& material : db::list_materials(workshop, on, std::nullopt)) {
      if (by_lot || material.sold_by == SoldBy::skin) {
        for (db::LotRow const& lot : lots_[material.code])
          if (by_lot || whole_goods(lot)) rows.push_back(lying(lot));
      } else if (Lying all_of_it = all(material); all_of_it.quantity.n > 0) {
        rows.push_back(std::move(all_of_it));
      }
    }
    return rows;
  }

 private:
  Currency currency_;
  std::map<std::string, std::vector<db::LotRow>, std::less<>> lots_;
  std::map<std::string, Money, std::less<>> values_;
};

Read<Answer> run_export(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  if (auto const moved = db::last_moved_on(**workshop); moved && context.on < *moved)
    return refuse({FaultCode::rule_refused,
                   args.where("--on"),
                   date_text(context.on),
                   fmt::format("{} or later: goods moved then, and what goes out is what lies there now",
                               date_text(*moved)),
                   {}});
  bool const by_lot = args.has("--lots");
  std::vector<SheetFields> rows;
  for (Lying const& each : Shelf(**workshop).rows(**workshop, context.on, by_lot)) {
    SheetFields& row = rows.emplace_back(SheetFields{{"code", each.code},
                                                     {"quantity", exact_amount(each.quantity, each.sold_by)},
                                                     {"worth", money_text(each.worth)},
                                                     {"place", each.place()}});
    if (by_lot) row.emplace_back("lot", each.lot);
  }
  return exported(context, args, by_lot ? Counted{"lot", "lots"} : Counted{"material", "materials"},
                  stock_columns(by_lot), rows);
}

// --- in

struct CountedRow {
  Material material;
  std::string lot;
  Amount quantity;
  std::optional<Money> worth;
};

class StockKeeper {
 public:
  StockKeeper(Spreadsheet const& sheet, Date on) : sheet_(sheet), on_(on) {}

  Read<ImportedRow> operator()(db::Writing& writing, SpreadsheetRow const& row) {
    if (!shelf_) look(writing.workshop());
    auto const counted = read(writing.workshop(), row.said);
    if (!counted) return tl::unexpected(counted.error());
    if (!counted->lot.empty()) return keep_lot(writing, row.said, *counted);
    return counted->material.sold_by == SoldBy::skin ? keep_skin(writing, row, *counted)
                                                     : keep(writing, row.said, *counted, known(*counted));
  }

 private:
  // All of the shelf is read once: a file has many rows.
  void look(db::Workshop& workshop) {
    shelf_.emplace(workshop);
    for (Material& material : db::list_materials(workshop, on_, std::nullopt))
      materials_.emplace(material.code, std::move(material));
    for (SpreadsheetRow const& row : sheet_.rows)
      if (auto const mark = row.said.text("--lot"))
        spoken_for_.insert(*mark);
      else if (auto const code = row.said.text("--code"))
        alone_.insert(*code);
    for (SpreadsheetRow const& row : sheet_.rows)
      if (row.good && !row.said.has("--lot")) match_skin(workshop, row);
  }

  Read<CountedRow> read(db::Workshop& workshop, Args const& said) const {
    std::string const code = *said.text("--code");
    auto const material = materials_.find(code);
    if (material == materials_.end())
      return tl::unexpected(located(db::find_material(workshop, code, on_), said.where("--code")).error());
    CountedRow row{material->second, said.text("--lot").value_or(""), {}, std::nullopt};
    std::vector<Fault> faults;
    auto const quantity = located(read_quantity_of(row.material, *said.text("--quantity"), Least::nothing),
                                  said.where("--quantity"));
    if (quantity)
      row.quantity = quantity->amount;
    else
      faults = quantity.error();
    if (auto const text = said.text("--worth")) {
      auto const money = read_workshop_money(*text, workshop.currency(), said.where("--worth"));
      if (money)
        row.worth = *money;
      else
        faults.insert(faults.end(), money.error().begin(), money.error().end());
    }
    if (!faults.empty()) return tl::unexpected(std::move(faults));
    return row;
  }

  Lying known(CountedRow const& row) { return shelf_->all(row.material); }

  Read<ImportedRow> keep_lot(db::Writing& writing, Args const& said, CountedRow const& row) {
    auto const lot = located(db::find_lot(writing.workshop(), row.lot), said.where("--lot"));
    if (!lot) return tl::unexpected(lot.error());
    auto const wrong = [&](std::string_view flag, std::string found, std::string expected) {
      return refuse({FaultCode::contradiction, said.where(flag), std::move(found), std::move(expected), {}});
    };
    if (lot->code != row.material.code)
      return wrong("--code", row.material.code, fmt::format("{}, of which {} is", lot->code, row.lot));
    if (in_custody(*lot))
      return wrong("--lot", row.lot, "goods of the workshop's own: these are " + lot->owner + "'s");
    if (alone_.contains(row.material.code) && row.material.sold_by != SoldBy::skin)
      return wrong("--lot", row.lot, "rows of lots only, where one row counts all of " + row.material.code);
    // As it was before other rows of the table moved the average that they share.
    auto const& all = shelf_->lots(lot->code);
    auto const before = std::ranges::find(all, lot->id, &db::LotRow::id);
    return keep(writing, said, row, lying(before == all.end() ? *lot : *before));
  }

  // --- skins without a mark: each is the item of its area that no other row speaks of, or a new one.
  void match_skin(db::Workshop& workshop, SpreadsheetRow const& row) {
    auto const counted = read(workshop, row.said);
    if (!counted || counted->material.sold_by != SoldBy::skin) return;
    for (db::LotRow const& lot : shelf_->lots(counted->material.code)) {
      if (!whole_goods(lot) || lot.quantity != counted->quantity) continue;
      if (!spoken_for_.insert(lot_text(lot)).second) continue;
      skins_.emplace(&row, lot);
      return;
    }
  }

  Read<ImportedRow> keep_skin(db::Writing& writing, SpreadsheetRow const& row, CountedRow counted) {
    if (auto const found = skins_.find(&row); found != skins_.end())
      return keep(writing, row.said, counted, lying(found->second));
    std::vector<std::string> others;
    for (db::LotRow const& lot : shelf_->lots(counted.material.code))
      if (whole_goods(lot) && !spoken_for_.contains(lot_text(lot))) others.push_back(lot_text(lot));
    if (!others.empty())
      return refuse(
          {FaultCode::contradiction,
           row.said.where("--quantity"),
           *row.said.text("--quantity"),
           fmt::format("its lot, or a row for {} too: which of the skins is this one?", listed(others)),
           {}});
    return keep_new_skin(writing, row.said, counted);
  }

  // One more than all that lie there now.
  Read<ImportedRow> keep_new_skin(db::Writing& writing, Args const& said, CountedRow const& row) const {
    if (row.quantity.n == 0) return ImportedRow{0, row.material.code, false, {}};
    Amount all = row.quantity;
    for (db::LotRow const& lot : db::lots(writing.workshop(), row.material.code, false))
      if (whole_goods(lot)) all = all + lot.quantity;
    auto const done = db::count(writing, row.material.code, all, on_, said.text("--reason").value_or(""),
                                row.worth, said.text("--place").value_or(""));
    if (!done) return tl::unexpected(done.error());
    Fields const now{{"quantity", exact_amount(row.quantity, row.material.sold_by)}};
    return ImportedRow{0, row.material.code, true, changes_between({}, now)};
  }

  // --- what is known, and what was counted
  Read<ImportedRow> keep(db::Writing& writing, Args const& said, CountedRow const& row, Lying const& before) {
    std::string const what = before.lot.empty() ? before.code : before.lot;
    ImportedRow kept{0, what, false, {}};
    auto const worth = worth_of_found(said, row, before);
    if (!worth) return tl::unexpected(worth.error());
    std::string const place = said.text("--place").value_or("");
    if (row.quantity != before.quantity) {
      auto const done =
          db::count(writing, what, row.quantity, on_, said.text("--reason").value_or(""), *worth, place);
      if (!done) return tl::unexpected(done.error());
      kept.fresh = done->kind == MovementKind::opening;
      auto const words = [&](Amount amount) { return exact_amount(amount, before.sold_by); };
      kept.changes.push_back({"quantity", words(before.quantity), words(row.quantity)});
    }
    for (db::LotRow const& lot : before.lots) {
      if (place.empty() || lot.place == place) continue;
      auto const done = db::set_fact(writing, lot_text(lot), "place", place);
      if (!done) return tl::unexpected(done.error());
      if (kept.changes.empty() || kept.changes.back().field != "place")
        kept.changes.push_back({"place", lot.place.empty() ? std::nullopt : std::optional(lot.place), place});
    }
    return kept;
  }

  // What is known keeps its worth. A table says the worth of all: as it stood, or with what was found.
  static Read<std::optional<Money>> worth_of_found(Args const& said, CountedRow const& row,
                                                   Lying const& before) {
    if (!row.worth || *row.worth == before.worth) {
      bool const nothing_known = before.quantity.n == 0;
      return nothing_known ? row.worth : std::nullopt;
    }
    if (row.quantity.n > before.quantity.n && *row.worth > before.worth) return *row.worth - before.worth;
    return refuse({FaultCode::contradiction,
                   said.where("--worth"),
                   money_text(*row.worth),
                   fmt::format("{}, as it stands, or nothing: a count does not change it, endband stock "
                               "write-down does",
                               money_text(before.worth)),
                   {}});
  }

  Spreadsheet const& sheet_;
  Date on_;
  std::optional<Shelf> shelf_;
  std::map<std::string, Material, std::less<>> materials_;
  std::set<std::string, std::less<>> spoken_for_, alone_;  // lots; codes of rows without one
  std::map<SpreadsheetRow const*, db::LotRow> skins_;
};

// Of skins there is a row each; of all else, one row.
void refuse_counted_twice(db::Workshop& workshop, Spreadsheet& sheet, Date on) {
  std::set<std::string, std::less<>> skins;
  for (Material const& material : db::list_materials(workshop, on, std::nullopt))
    if (material.sold_by == SoldBy::skin) skins.insert(material.code);
  refuse_repeated(sheet, "--lot");
  refuse_repeated(sheet, "--code", [&](SpreadsheetRow const& row) {
    return !row.said.has("--lot") && !skins.contains(*row.said.text("--code"));
  });
}

Read<Answer> run_import(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto sheet = sheet_said(context, args, "stock import", stock_columns(true));
  if (!sheet) return tl::unexpected(sheet.error());
  refuse_counted_twice(**workshop, *sheet, context.on);
  Imported view{.noun = "stock", .file = args.word(0), .next = "endband stock list"};
  auto done = import_rows(context, **workshop, *sheet, std::move(view), StockKeeper(*sheet, context.on));
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(*done));
}

std::vector<Flag> flags_of_export() {
  std::vector<Flag> flags = export_flags();
  flags.insert(flags.begin(), {"--lots", FlagType::on, "a row for each lot, offcuts too"});
  return flags;
}

std::string const about_export =
    "What is the workshop's own: a row for each material, of skins for each of them. " +
    std::string(export_about);
std::string const about_import =
    std::string(import_about) +
    " Each row is a count, kept as stock count keeps one: more is found, less is missing, and the first of a "
    "material is its opening stock. What has no row is not counted. A skin without its lot is the one of "
    "that area, or a new one. Another place is where the goods are now. Parcels come in by stock receive.";

}  // namespace

Command stock_export() {
  return {.noun = "stock",
          .verb = "export",
          .summary = "Write what lies on the shelf as a table for a spreadsheet",
          .about = about_export,
          .words = {},
          .flags = flags_of_export(),
          .examples = {"stock export --output stock.csv", "stock export --lots"},
          .refused_when = "the file is there already, or goods moved after the day",
          .writes = true,
          .writes_with = {"--output"},
          .run = run_export};
}

Command stock_import() {
  return {.noun = "stock",
          .verb = "import",
          .summary = "Keep a count of the shelf from a table of a spreadsheet",
          .about = about_import,
          .words = {import_word},
          .flags = import_flags(),
          .examples = {"stock import stock.csv --dry-run", "stock import stock.csv"},
          .refused_when = "a rule of stock count forbids a row",
          .writes = true,
          .run = run_import};
}

}  // namespace endband::cli
