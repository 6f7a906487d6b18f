// The shelf as JSON and as a document.
#include "cli/commands/stock_list.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

std::string counted(int n, std::string_view one) { return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s"); }

// "1.21 m2 in 2 skins and 1 offcut", "12 sheets and 2 offcuts": of goods with a size a person counts the
// pieces.
std::string quantity_words(ShelfLine const& line) {
  SoldBy const sold_by = line.shelf.sold_by;
  std::string const all = sold_words(line.shelf.quantity, sold_by);
  std::string const offcuts = line.offcuts == 0 ? "" : counted(line.offcuts, "offcut");
  if (sold_by == SoldBy::skin && line.whole + line.offcuts > 0) {
    std::string const skins = line.whole == 0 ? "" : counted(line.whole, "skin");
    return fmt::format("{} in {}{}{}", all, skins, skins.empty() || offcuts.empty() ? "" : ", ", offcuts);
  }
  if (line.offcuts == 0) return all;
  return line.in_whole.n == 0 ? offcuts : sold_words(line.in_whole, sold_by) + ", " + offcuts;
}

Json line_json(ShelfLine const& line, Outlines const& outlines) {
  auto const lot = [&](db::LotRow const& row) { return lot_and_shape_json(row, outlines); };
  return Json::Object{
      {"code", line.shelf.code},
      {"name", line.shelf.name},
      {"sold_by", sold_by_name(line.shelf.sold_by)},
      {"quantity", amount_json(line.shelf.quantity)},
      {"reserved", amount_json(line.shelf.reserved)},
      {"free", amount_json(line.free)},
      {"past_its_day", amount_json(line.dead)},
      {"worth", money_json(line.shelf.value)},
      {"whole_lots", line.whole},
      {"offcuts", line.offcuts},
      {"reorder_at", line.reorder_at ? amount_json({line.free.dimension, *line.reorder_at}) : Json()},
      {"low", line.low()},
      {"lots", json_array(line.lots, lot)}};
}

std::string note(ShelfLine const& line) {
  std::vector<std::string> words;
  if (line.low()) words.emplace_back("low");
  if (line.dead.n > 0) words.emplace_back("past its day");
  return fmt::format("{}", fmt::join(words, ", "));
}

std::string some(Amount amount, SoldBy sold_by) { return amount.n == 0 ? "" : sold_words(amount, sold_by); }

void add_materials(Document& document, StockList const& view) {
  bool const notes =
      std::ranges::any_of(view.lines, [](ShelfLine const& line) { return !note(line).empty(); });
  bool const reserved =
      std::ranges::any_of(view.lines, [](ShelfLine const& line) { return line.shelf.reserved.n != 0; });
  Table table{{{"Material"}, {"Name", Align::left, 3}, {"On the shelf"}}, {}};
  if (reserved) table.columns.push_back({"Reserved", Align::right});
  if (!view.past) table.columns.push_back({"Free", Align::right});
  std::size_t const worth = table.columns.size();
  table.columns.push_back({fmt::format("Worth {}", view.currency.code()), Align::decimal});
  if (notes) table.columns.push_back({"Note"});
  Money sum{0, view.currency};
  for (ShelfLine const& line : view.lines) {
    db::ShelfRow const& row = line.shelf;
    std::vector<std::string> cells{row.code, row.name, quantity_words(line)};
    if (reserved) cells.push_back(some(row.reserved, row.sold_by));
    if (!view.past) cells.push_back(sold_words(line.free, row.sold_by));
    cells.push_back(money_text(row.value));
    if (notes) cells.push_back(note(line));
    table.add(std::move(cells));
    sum += row.value;
  }
  std::vector<std::string> total(table.columns.size());
  total.front() = "Together";
  total[worth] = money_text(sum);
  table.add_total(std::move(total));
  document.add(std::move(table));
}

std::string measured_words(db::LotRow const& lot, Outlines const& outlines) {
  auto const found = outlines.find(lot.id);
  if (found == outlines.end()) return {};
  return found->second.measured ? sheet_words(found->second.extent) : "no: a guess";
}

// A skin that nobody measured, of which something is left.
db::LotRow const* first_guess(StockList const& view) {
  for (ShelfLine const& line : view.lines)
    for (db::LotRow const& lot : line.lots)
      if (auto const found = view.outlines.find(lot.id);
          found != view.outlines.end() && !found->second.measured && lot.quantity.n > 0)
        return &lot;
  return nullptr;
}

void add_lots(Document& document, StockList const& view) {
  bool const custody = view.of == ListOf::custody;
  Table table{{{"Lot"}, {"Material"}, {"Left", Align::right}}, {}};
  if (!custody) table.columns.push_back({fmt::format("Worth {}", view.currency.code()), Align::decimal});
  if (!view.outlines.empty()) table.columns.push_back({"Measured", Align::left, 1});
  table.columns.push_back({"Since", Align::left, 3});
  table.columns.push_back({custody ? "Owner" : "From", Align::left, custody ? 0 : 2});
  table.columns.push_back({"What to know"});
  Money sum{0, view.currency};
  for (ShelfLine const& line : view.lines)
    for (db::LotRow const& lot : line.lots) {
      std::vector<std::string> cells{lot_text(lot), lot.code, left_words(lot)};
      if (!custody) cells.push_back(money_text(lot.value));
      if (!view.outlines.empty()) cells.push_back(measured_words(lot, view.outlines));
      cells.insert(cells.end(),
                   {date_text(lot.since), custody ? lot.owner : origin_words(lot), remarks(lot, view.on)});
      table.add(std::move(cells));
      sum += lot.value;
    }
  if (!custody) {
    std::vector<std::string> total(table.columns.size());
    total[1] = "Together";
    total[3] = money_text(sum);
    table.add_total(std::move(total));
  }
  document.add(std::move(table));
  if (db::LotRow const* const lot = first_guess(view))
    document.notice(
        NoticeKind::note,
        fmt::format("A skin that is not measured is cut by a guess at its outline. Measured: endband "
                    "stock change {} --stations \"ALONG WIDTH, ALONG WIDTH, ... mm\"",
                    lot_text(*lot)));
}

void add_worth(Document& document, StockList const& view) {
  KeyValues rows;
  rows.rows = {{"Worth on the shelf, at outlay", money_words(view.value.shelf)},
               {"In work: goods and work by others", money_words(view.value.in_work)},
               {"In work, with the hours", money_words(view.value.in_work_with_hours)}};
  document.add(std::move(rows));
}

void add_low(Document& document, StockList const& view) {
  for (ShelfLine const& line : view.lines) {
    SoldBy const sold_by = line.shelf.sold_by;
    Amount const point{line.free.dimension, line.reorder_at.value_or(0)};
    if (line.low())
      document.notice(
          NoticeKind::warning,
          fmt::format("{} is at or below its reorder point: {} free, to be ordered at {}", line.shelf.code,
                      sold_words(line.free, sold_by), sold_words(point, sold_by)));
    if (line.dead.n > 0)
      document.notice(NoticeKind::warning, fmt::format("{}: {} is past its day, and serves no job",
                                                       line.shelf.code, sold_words(line.dead, sold_by)));
  }
}

}  // namespace

Json to_json(StockList const& view) {
  auto const line = [&](ShelfLine const& of) { return line_json(of, view.outlines); };
  return Json::Object{{"on", date_text(view.on)},
                      {"past", view.past},
                      {"shelf", money_json(view.value.shelf)},
                      {"in_work", money_json(view.value.in_work)},
                      {"in_work_with_hours", money_json(view.value.in_work_with_hours)},
                      {"materials", json_array(view.lines, line)}};
}

Document to_document(StockList const& view) {
  Document document;
  if (view.past) document.heading("The shelf on " + date_text(view.on));
  if (view.lines.empty()) {
    document.paragraph(view.of == ListOf::custody ? "No goods of a customer's are here."
                       : view.whole               ? "Nothing on the shelf yet."
                                                  : "Nothing of it on the shelf.");
    if (view.whole && view.of == ListOf::materials)
      document.next(
          "endband stock receive \"CODE QUANTITY PRICE\"    or    endband stock count CODE QUANTITY");
    return document;
  }
  view.of == ListOf::materials ? add_materials(document, view) : add_lots(document, view);
  if (view.whole && view.of != ListOf::custody) add_worth(document, view);
  if (view.of == ListOf::materials && !view.past) add_low(document, view);
  bool const low = std::ranges::any_of(view.lines, [](ShelfLine const& line) { return line.low(); });
  if (low && !view.past) document.next("endband stock to-buy");
  return document;
}

}  // namespace endband::cli
