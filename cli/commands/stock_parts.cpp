#include "cli/commands/stock_parts.h"

#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace endband::cli {

Read<Material> material_meant(db::Workshop& workshop, std::string_view code_or_lot, Date on,
                              Where const& where) {
  if (!read_mark(code_or_lot)) return located(db::find_material(workshop, code_or_lot, on), where);
  auto const lot = located(db::find_lot(workshop, code_or_lot), where);
  if (!lot) return tl::unexpected(lot.error());
  return located(db::find_material(workshop, lot->code, on), where);
}

std::string words_from(Args const& args, std::size_t first) {
  std::string text;
  for (std::size_t i = first; i < args.word_count(); ++i) text += (i == first ? "" : " ") + args.word(i);
  return text;
}

std::string lot_text(db::LotRow const& lot) { return mark_text(lot.mark); }

bool in_custody(db::LotRow const& lot) { return lot.source == LotSource::custody; }

bool past_its_day(db::LotRow const& lot, Date on) { return lot.keeps_until && *lot.keeps_until < on; }

std::string left_words(db::LotRow const& lot) {
  if (lot.source == LotSource::kept && lot.height && lot.width && lot.quantity.n > 0)
    return sheet_words({*lot.height, *lot.width});
  return sold_words(lot.quantity, lot.sold_by);
}

std::string origin_words(db::LotRow const& lot) {
  switch (lot.source) {
    case LotSource::received: return lot.supplier;
    case LotSource::opening: return "opening stock";
    case LotSource::found: return "found when counted";
    case LotSource::kept: return "cut from " + lot.parent;
    case LotSource::custody: return "of " + lot.owner;
  }
  return {};
}

std::string remarks(db::LotRow const& lot, Date on) {
  std::vector<std::string> words;
  auto const add = [&](std::string_view before, std::string const& value) {
    if (!value.empty()) words.push_back(std::string(before) + value);
  };
  add("", lot.place);
  add("batch ", lot.batch);
  add("shade ", lot.shade);
  if (!lot.job.empty() && lot.source != LotSource::kept) add("only for ", lot.job);
  if (lot.opened_on) add("opened ", date_text(*lot.opened_on));
  if (lot.keeps_until)
    add(past_its_day(lot, on) ? "past its day, kept until " : "keeps until ", date_text(*lot.keeps_until));
  add("", lot.note);
  return fmt::format("{}", fmt::join(words, ", "));
}

Json landed_json(Landed const& landed) {
  return Json::Object{{"price", money_json(landed.price)},         {"carriage", money_json(landed.carriage)},
                      {"duty", money_json(landed.duty)},           {"tax", money_json(landed.tax)},
                      {"tax_borne", money_json(landed.tax_borne)}, {"total", money_json(landed.total)}};
}

Json lot_json(db::LotRow const& lot) {
  auto const um = [](std::optional<Length> length) { return length ? Json(length->n) : Json(); };
  auto const day = [](std::optional<Date> date) { return date ? Json(date_text(*date)) : Json(); };
  return Json::Object{{"lot", lot_text(lot)},
                      {"material", lot.code},
                      {"source", source_name(lot.source)},
                      {"since", date_text(lot.since)},
                      {"left", amount_json(lot.quantity)},
                      {"worth", money_json(lot.value)},
                      {"said", lot.said},
                      {"landed", landed_json(lot.landed)},
                      {"supplier", lot.supplier},
                      {"owner", lot.owner},
                      {"job", lot.job},
                      {"cut_from", lot.parent},
                      {"height_um", um(lot.height)},
                      {"width_um", um(lot.width)},
                      {"thickness_nm", lot.thickness ? Json(lot.thickness->n) : Json()},
                      {"batch", lot.batch},
                      {"shade", lot.shade},
                      {"place", lot.place},
                      {"opened_on", day(lot.opened_on)},
                      {"keeps_until", day(lot.keeps_until)},
                      {"note", lot.note}};
}

db::ShelfRow shelf_of(db::Workshop& workshop, Material const& material) {
  if (auto const row = db::on_hand(workshop, material.code)) return *row;
  Amount const none{dimension_of(material.sold_by), 0};
  return {material.id, material.code, material.name, material.sold_by, none, none, {0, workshop.currency()}};
}

Json on_shelf_json(db::ShelfRow const& row) {
  return Json::Object{{"code", row.code},
                      {"quantity", amount_json(row.quantity)},
                      {"reserved", amount_json(row.reserved)},
                      {"worth", money_json(row.value)}};
}

void add_on_shelf(Document& document, std::vector<db::ShelfRow> const& rows, Currency currency) {
  if (rows.empty()) return;
  bool const reserved =
      std::ranges::any_of(rows, [](db::ShelfRow const& row) { return row.reserved.n != 0; });
  Table table{{{"Now on the shelf"}, {"Quantity", Align::right}}, {}};
  if (reserved) table.columns.push_back({"Reserved", Align::right});
  table.columns.push_back({fmt::format("Worth {}", currency.code()), Align::decimal});
  for (db::ShelfRow const& row : rows) {
    std::vector<std::string> cells{row.code, sold_words(row.quantity, row.sold_by)};
    if (reserved) cells.push_back(row.reserved.n == 0 ? "" : sold_words(row.reserved, row.sold_by));
    cells.push_back(money_text(row.value));
    table.add(std::move(cells));
  }
  document.add(std::move(table));
  for (db::ShelfRow const& row : rows)
    if (row.reserved.n > row.quantity.n)
      document.notice(NoticeKind::warning,
                      fmt::format("jobs have reserved {} of {}, which is more than is there",
                                  sold_words(row.reserved, row.sold_by), row.code));
}

db::LotRow const* lot_of(LotId id, std::vector<db::LotRow> const& lots) {
  auto const found = std::ranges::find(lots, id, &db::LotRow::id);
  return found == lots.end() ? nullptr : &*found;
}

Json posting_json(Posting const& posting, std::vector<db::LotRow> const& lots, Currency currency) {
  db::LotRow const* const lot = lot_of(posting.lot, lots);
  if (lot == nullptr) throw std::logic_error("a posting of a lot that the material does not have");
  return Json::Object{{"lot", lot_text(*lot)},
                      {"quantity", amount_json({lot->quantity.dimension, posting.quantity})},
                      {"worth", money_json({posting.value, currency})}};
}

}  // namespace endband::cli
