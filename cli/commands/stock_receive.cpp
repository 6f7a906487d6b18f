// Puts the lines of a parcel on the shelf, or a customer's goods in custody.
#include "cli/commands/commands.h"
#include "cli/commands/stock_parcel.h"
#include "cli/commands/stock_parts.h"
#include "cli/commands/stock_shape.h"
#include "cli/words/values.h"
#include "db/cutting.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

// What was paid is not what the price in force says: quotes would go on with the old one.
struct OtherPrice {
  std::string code;
  SoldBy sold_by = SoldBy::piece;
  Amount pack;
  Money in_force, paid;  // for a pack, as the supplier says it
};

struct Received {
  db::Parcel parcel;
  std::vector<db::LotRow> lots;  // in the order of the lines
  std::vector<db::ShelfRow> shelf;
  std::vector<OtherPrice> other_prices;
  Currency currency;
  Outlines outlines;  // of the lots that are skins
  std::optional<AreaApart> apart;
  bool dry_run = false;
};

Money sum_of(Received const& view, Money Landed::*part) {
  Money sum{0, view.currency};
  for (db::LotRow const& lot : view.lots) sum += lot.landed.*part;
  return sum;
}

Json to_json(Received const& view) {
  auto const other = [](OtherPrice const& price) {
    return Json(Json::Object{{"code", price.code},
                             {"pack", amount_json(price.pack)},
                             {"in_force", money_json(price.in_force)},
                             {"paid", money_json(price.paid)}});
  };
  auto const lot = [&](db::LotRow const& row) { return lot_and_shape_json(row, view.outlines); };
  return Json::Object{{"dry_run", view.dry_run},
                      {"on", date_text(view.parcel.on)},
                      {"supplier", view.parcel.supplier},
                      {"owner", view.parcel.owner},
                      {"job", view.parcel.job},
                      {"currency", view.parcel.currency.code()},
                      {"rate", ratio_json(view.parcel.terms.rate)},
                      {"lots", json_array(view.lots, lot)},
                      {"landed", landed_json({.price = sum_of(view, &Landed::price),
                                              .carriage = sum_of(view, &Landed::carriage),
                                              .duty = sum_of(view, &Landed::duty),
                                              .tax = sum_of(view, &Landed::tax),
                                              .tax_borne = sum_of(view, &Landed::tax_borne),
                                              .total = sum_of(view, &Landed::total)})},
                      {"on_shelf", json_array(view.shelf, on_shelf_json)},
                      {"other_prices", json_array(view.other_prices, other)},
                      {"area_apart", area_apart_json(view.apart)}};
}

struct Part {
  std::string_view title;
  Money Landed::*part;
};

// Of carriage, duty and tax only what this parcel has.
void add_landed(Document& document, Received const& view) {
  std::vector<Part> parts{{"Price", &Landed::price}};
  for (Part const& part : {Part{"Carriage", &Landed::carriage}, Part{"Duty", &Landed::duty},
                           Part{"Tax borne", &Landed::tax_borne}})
    if (sum_of(view, part.part).minor != 0) parts.push_back(part);
  Table table{{{"Lot"}, {"Material"}, {"Quantity", Align::right}}, {}};
  for (Part const& part : parts) table.columns.push_back({std::string(part.title), Align::decimal});
  table.columns.push_back({fmt::format("Landed {}", view.currency.code()), Align::decimal});
  for (db::LotRow const& lot : view.lots) {
    std::vector<std::string> cells{lot_text(lot), lot.code, left_words(lot)};
    for (Part const& part : parts) cells.push_back(money_text(lot.landed.*part.part));
    cells.push_back(money_text(lot.landed.total));
    table.add(std::move(cells));
  }
  if (view.lots.size() > 1) {
    std::vector<std::string> cells{"", "Together", ""};
    for (Part const& part : parts) cells.push_back(money_text(sum_of(view, part.part)));
    cells.push_back(money_text(sum_of(view, &Landed::total)));
    table.add_total(std::move(cells));
  }
  document.add(std::move(table));
}

void add_custody(Document& document, Received const& view) {
  Table table{{{"Lot"}, {"Material"}, {"Quantity", Align::right}, {"Place", Align::left, 1}}, {}};
  for (db::LotRow const& lot : view.lots) table.add({lot_text(lot), lot.code, left_words(lot), lot.place});
  document.add(std::move(table));
  document.paragraph("It stays the customer's: it serves no other job, and is in no value.");
}

Document to_document(Received const& view) {
  bool const custody = !view.parcel.owner.empty();
  Document document;
  std::string text =
      custody ? fmt::format("In custody for {}", view.parcel.owner)
              : fmt::format("{} from {}", view.dry_run ? "Would receive" : "Received", view.parcel.supplier);
  if (!view.parcel.job.empty()) text += ", for " + view.parcel.job + " only";
  document.heading(text + ", " + date_text(view.parcel.on));
  custody ? add_custody(document, view) : add_landed(document, view);
  if (view.parcel.currency != view.currency)
    document.paragraph(fmt::format("Prices were said in {} and exchanged at {}.", view.parcel.currency.code(),
                                   number(view.parcel.terms.rate)));
  for (db::LotRow const& lot : view.lots)
    if (auto const outline = view.outlines.find(lot.id);
        outline != view.outlines.end() && outline->second.measured)
      document.paragraph(fmt::format("{} as measured: {}.", lot_text(lot), outline_words(outline->second)));
  if (!custody) add_on_shelf(document, view.shelf, view.currency);
  add_area_apart(document, view.apart);
  std::string const rate =
      view.parcel.currency == view.currency ? "" : " --rate " + number(view.parcel.terms.rate);
  for (OtherPrice const& price : view.other_prices)
    document.notice(
        NoticeKind::note,
        fmt::format("{0} was {1} for {2}; the price in force says {3}. If it stays so: endband material "
                    "price {0} --pack \"{2}\" --price \"{1}\"{4}",
                    price.code, money_words(price.paid), sold_words(price.pack, price.sold_by),
                    money_words(price.in_force), rate));
  if (view.dry_run)
    document.paragraph("Nothing is saved.");
  else
    document.next("endband stock list " + view.lots.front().code + " --lots");
  return document;
}

// Told from a hundredth of the price on: what rounding an area or a thread's length does is no change.
std::vector<OtherPrice> other_prices(SaidParcel const& said) {
  std::vector<OtherPrice> found;
  for (std::size_t n = 0; n < said.parcel.lines.size(); ++n) {
    db::ParcelLine const& line = said.parcel.lines[n];
    Material const& material = said.materials[n];
    if (!material.price || !said.parcel.owner.empty() || material.price->said.currency != line.price.currency)
      continue;
    Money const in_force = material.price->said;
    Money const paid{mul_div(line.price.minor, material.price->pack.n, line.quantity.n, Rounding::half_away),
                     line.price.currency};
    std::int64_t const apart =
        paid.minor > in_force.minor ? paid.minor - in_force.minor : in_force.minor - paid.minor;
    bool const told = std::ranges::find(found, material.code, &OtherPrice::code) != found.end();
    if (!told && checked_mul(apart, 100) > in_force.minor)
      found.push_back({material.code, material.sold_by, material.price->pack, in_force, paid});
  }
  return found;
}

Read<Received> received(db::Writing& writing, SaidParcel const& said,
                        std::optional<endband::Shape> const& shape, Currency currency) {
  auto const ids = db::receive(writing, said.parcel);
  if (!ids) return tl::unexpected(ids.error());
  if (shape) db::save_shape(writing, ids->front(), *shape);
  Received view{.parcel = said.parcel,
                .lots = {},
                .shelf = {},
                .other_prices = {},
                .currency = currency,
                .outlines = {},
                .apart = {}};
  for (std::size_t n = 0; n < ids->size(); ++n) {
    std::string const& code = said.parcel.lines[n].code;
    auto const lots = db::lots(writing.workshop(), code, true);
    db::LotRow const* const lot = lot_of((*ids)[n], lots);
    if (lot == nullptr) throw std::logic_error("a lot received is not among its material's");
    view.lots.push_back(*lot);
    if (std::ranges::find(view.shelf, code, &db::ShelfRow::code) != view.shelf.end()) continue;
    if (auto const row = db::on_hand(writing.workshop(), code)) view.shelf.push_back(*row);
  }
  // The job by its full number, however it was typed.
  if (!view.parcel.job.empty()) view.parcel.job = view.lots.front().job;
  view.other_prices = other_prices(said);
  view.outlines = outlines_of(writing.workshop(), view.lots);
  if (shape) view.apart = area_apart(view.lots.front(), view.outlines.at(ids->front()));
  return view;
}

// An outline is one skin's, and says nothing of the others in a parcel.
std::optional<Fault> not_one_skin(SaidParcel const& said, Where const& where) {
  if (said.parcel.lines.size() > 1)
    return Fault{FaultCode::contradiction,
                 where,
                 fmt::format("{} lines", said.parcel.lines.size()),
                 "a parcel of one skin: of several, say the outline of each with endband stock change LOT",
                 {}};
  if (said.materials.front().sold_by != SoldBy::skin)
    return Fault{FaultCode::wrong_kind, where, said.materials.front().code, "a skin, sold by its area", {}};
  return std::nullopt;
}

struct Said {
  SaidParcel parcel;
  std::optional<endband::Shape> shape;
};
Read<Said> all_said(Context& context, db::Workshop& workshop, Args const& args) {
  auto parcel = parcel_said(workshop, args, context.on);
  auto shape = shape_said(context, args);
  std::vector<Fault> faults = parcel ? std::vector<Fault>() : parcel.error();
  if (!shape) faults.insert(faults.end(), shape.error().begin(), shape.error().end());
  if (auto const flag = shape_flag_said(args); flag && parcel)
    if (auto fault = not_one_skin(*parcel, args.where(*flag))) faults.push_back(std::move(*fault));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return Said{std::move(*parcel), std::move(*shape)};
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const said = all_said(context, **workshop, args);
  if (!said) return tl::unexpected(said.error());
  auto view = in_one_writing(context, **workshop, [&](db::Writing& writing) {
    return received(writing, said->parcel, said->shape, (*workshop)->currency());
  });
  if (!view) return tl::unexpected(view.error());
  view->dry_run = context.dry_run;
  return Answer(std::move(*view));
}

std::vector<Flag> flags() {
  std::vector<Flag> all = parcel_flags();
  for (Flag const& flag : shape_flags()) all.push_back(flag);
  return all;
}

}  // namespace

Command stock_receive() {
  return {
      .noun = "stock",
      .verb = "receive",
      .summary = "Put what came in a parcel on the shelf",
      .about =
          "A line is CODE QUANTITY PRICE in one quoted word: \"linen-18-3 2 packs 12.40\", the price of "
          "the whole "
          "line without tax. Each skin is a line of its own with its area. Carriage is shared over the "
          "lines by "
          "their prices. With --owner the goods are a customer's, in custody, and a line has no price. One "
          "skin may come with its outline.",
      .words = {{"LINE", FlagType::words, "a code, a quantity and what it cost: \"board-20 10 sheets 34.00\"",
                 true, true}},
      .flags = flags(),
      .examples =
          {"stock receive \"goat-moss-08 0.61 m2 61.50\" \"goat-moss-08 0.58 m2 58.50\" --carriage 6.40 "
           "--tax \"19 %\" --batch 7",
           "stock receive \"clasp-tide 2 pieces\" --owner ida-quill --place \"safe\""},
      .refused_when = "goods came before the last movement of their material that shares their average",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
