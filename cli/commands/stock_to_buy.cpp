// What to buy, from whom, and by when to order it.
#include "cli/commands/commands.h"
#include "cli/commands/shop_parts.h"
#include "cli/commands/stock_parts.h"
#include "cli/commands/stock_wanted.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct ToBuy {
  std::vector<Buy> buys;
  std::vector<MaterialSupply> materials;
  std::vector<std::string> with;  // quotes counted as if accepted
  std::size_t jobs = 0;
  Currency currency;
  Date on;
  MaterialSupply const& of(Buy const& buy) const {
    return *std::ranges::find(materials, buy.material,
                              [](MaterialSupply const& row) { return row.material.id; });
  }
};

Money together(std::span<Buy const> buys, Currency currency) {
  Money sum{0, currency};
  for (Buy const& buy : buys)
    if (buy.priced) sum += buy.landed;
  return sum;
}

Json buy_json(Buy const& buy, Material const& material) {
  Dimension const dimension = dimension_of(material.sold_by);
  auto const amount_of = [&](std::int64_t n) { return amount_json({dimension, n}); };
  return Json::Object{{"supplier", buy.supplier},
                      {"code", material.code},
                      {"name", material.name},
                      {"wanted", amount_of(buy.wanted)},
                      {"on_shelf", amount_of(buy.on_shelf)},
                      {"past_its_day", amount_of(buy.dead)},
                      {"short_of", amount_of(buy.short_of)},
                      {"packs", buy.packs},
                      {"pack", buy.priced ? amount_json(material.price->pack) : Json()},
                      {"quantity", amount_json(buy.quantity)},
                      {"landed", buy.priced ? money_json(buy.landed) : Json()},
                      {"for_reorder", buy.for_reorder},
                      {"jobs", json_words(buy.jobs)},
                      {"needed_on", date_text(buy.needed_on)},
                      {"order_by", buy.order_by ? Json(date_text(*buy.order_by)) : Json()},
                      {"too_late", buy.too_late},
                      {"one_batch", buy.one_batch}};
}

Json to_json(ToBuy const& view) {
  auto const row = [&](Buy const& buy) { return buy_json(buy, view.of(buy).material); };
  return Json::Object{{"on", date_text(view.on)},
                      {"open_jobs", static_cast<std::int64_t>(view.jobs)},
                      {"landed", money_json(together(view.buys, view.currency))},
                      {"buy", json_array(view.buys, row)}};
}

// "2 x 20 sheets"; a skin's area is what one usually has.
std::string buy_words(Buy const& buy, Material const& material) {
  if (!buy.priced) return "no price";
  return fmt::format("{} x {}", buy.packs, sold_words(material.price->pack, material.sold_by));
}

// The day is of no use when it is past; a notice says when an order of today would come.
std::string order_by_words(Buy const& buy) {
  if (!buy.order_by) return "unknown";
  return buy.too_late ? "too late" : date_text(*buy.order_by);
}

std::string for_words(Buy const& buy) {
  std::vector<std::string> words = buy.jobs;
  if (buy.for_reorder) words.emplace_back("the shelf");
  return fmt::format("{}", fmt::join(words, ", "));
}

void add_supplier(Document& document, ToBuy const& view, std::span<Buy const> buys) {
  std::string const& supplier = buys.front().supplier;
  document.heading(supplier.empty() ? "No price says from whom" : supplier, 2);
  Table table{{{"Material"},
               {"Short of", Align::right, 1},
               {"Buy"},
               {fmt::format("Landed {}", view.currency.code()), Align::decimal},
               {"Needed", Align::left, 2},
               {"Order by"},
               {"For"}},
              {}};
  for (Buy const& buy : buys) {
    Material const& material = view.of(buy).material;
    table.add({material.code, sold_words({buy.quantity.dimension, buy.short_of}, material.sold_by),
               buy_words(buy, material), buy.priced ? money_text(buy.landed) : "", date_text(buy.needed_on),
               order_by_words(buy), for_words(buy)});
  }
  if (buys.size() > 1)
    table.add_total({"Together", "", "", money_text(together(buys, view.currency)), "", "", ""});
  document.add(std::move(table));
}

void add_notices(Document& document, ToBuy const& view) {
  for (Buy const& buy : view.buys) {
    MaterialSupply const& row = view.of(buy);
    Material const& material = row.material;
    auto const tell = [&](NoticeKind kind, std::string const& text) {
      document.notice(kind, material.code + ": " + text);
    };
    if (buy.too_late)
      tell(NoticeKind::warning,
           fmt::format("it is needed on {} and takes {} days to come; ordered today it is here on {}",
                       date_text(buy.needed_on), row.supply.lead_days.value_or(0),
                       date_text(view.on + std::chrono::days(row.supply.lead_days.value_or(0)))));
    if (buy.one_batch > 1)
      tell(NoticeKind::warning, fmt::format("{} skins of one batch; say so when you order", buy.one_batch));
    if (buy.dead > 0)
      tell(NoticeKind::warning,
           fmt::format("{} on the shelf does not keep until it is needed",
                       sold_words({buy.quantity.dimension, buy.dead}, material.sold_by)));
    if (!buy.priced)
      tell(NoticeKind::note,
           fmt::format("endband material price {} --pack ... --price ... says what a pack costs",
                       material.code));
  }
  auto const unknown = std::ranges::find_if(view.buys, [](Buy const& buy) { return !buy.order_by; });
  if (unknown != view.buys.end())
    document.notice(NoticeKind::note, fmt::format("Order by is unknown where nobody said how long an order "
                                                  "takes: endband stock supply {} --lead-days N",
                                                  view.of(*unknown).material.code));
}

// "2 open jobs, 26-014b and the shelf"
std::string for_whom(ToBuy const& view) {
  std::vector<std::string> whom;
  if (view.jobs > 0) whom.push_back(fmt::format("{} open job{}", view.jobs, view.jobs == 1 ? "" : "s"));
  whom.insert(whom.end(), view.with.begin(), view.with.end());
  whom.emplace_back("the shelf");
  return listed(whom);
}

Document to_document(ToBuy const& view) {
  Document document;
  if (view.buys.empty()) {
    document.paragraph(fmt::format("Nothing to buy for {}.", for_whom(view)));
    return document;
  }
  document.heading("To buy for " + for_whom(view));
  for (auto first = view.buys.begin(); first != view.buys.end();) {
    auto const last =
        std::find_if(first, view.buys.end(), [&](Buy const& buy) { return buy.supplier != first->supplier; });
    add_supplier(document, view, {first, last});
    first = last;
  }
  if (view.buys.front().supplier != view.buys.back().supplier)
    document.paragraph(
        fmt::format("All together {}, landed.", money_words(together(view.buys, view.currency))));
  add_notices(document, view);
  document.next("endband stock receive \"CODE QUANTITY PRICE\"    when it has come");
  return document;
}

Read<std::vector<db::QuoteHeader>> quotes_said(db::Workshop& workshop, Args const& args) {
  std::vector<std::string> numbers;
  if (auto const first = args.text("--with")) numbers.push_back(*first);
  for (std::size_t i = 0; i < args.word_count(); ++i) numbers.push_back(args.word(i));
  std::vector<db::QuoteHeader> quotes;
  std::vector<Fault> faults;
  auto const jobs = db::list_jobs(workshop, false);
  for (std::string const& number : numbers) {
    auto const quote = located(db::find_quote(workshop, number), args.where("--with"));
    if (!quote) {
      faults.insert(faults.end(), quote.error().begin(), quote.error().end());
      continue;
    }
    bool const twice = std::ranges::find(quotes, quote->id, &db::QuoteHeader::id) != quotes.end();
    auto const job =
        std::ranges::find(jobs, quote->id, [](db::JobHeader const& each) { return each.quote.id; });
    if (job != jobs.end())
      faults.push_back({FaultCode::contradiction,
                        args.where("--with"),
                        number,
                        "a quote that is not accepted: job " + job->number + " is counted anyhow",
                        {}});
    else if (!twice)
      quotes.push_back(*quote);
  }
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return quotes;
}

Read<Answer> run(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  db::Reading const reading(**workshop);
  auto const with = quotes_said(**workshop, args);
  if (!with) return tl::unexpected(with.error());
  Date const by = args.get<Date>("--by").value_or(context.on);
  std::vector<Wanted> also;
  for (db::QuoteHeader const& quote : *with)
    std::ranges::move(wanted_of(db::load_quote(**workshop, quote.id), {}, db::number_text(quote.number), by),
                      std::back_inserter(also));
  Wants wants = gather_wants(**workshop, std::move(also), by, context.on);
  ToBuy view{.buys = to_buy(wants.materials, wants.shelf, wants.wanted, buying_rules(**workshop, context.on),
                            context.on),
             .materials = std::move(wants.materials),
             .with = {},
             .jobs = wants.jobs,
             .currency = (*workshop)->currency(),
             .on = context.on};
  for (db::QuoteHeader const& quote : *with) view.with.push_back(db::number_text(quote.number));
  return Answer(std::move(view));
}

}  // namespace

Command stock_to_buy() {
  return {
      .noun = "stock",
      .verb = "to-buy",
      .summary = "Say what to buy for the open jobs and the shelf, from whom, and by when to order",
      .about =
          "Whole packs at what they cost landed, by supplier. What does not keep until the day it is needed "
          "counts as absent, and so does what customers left here.",
      .words = {{"QUOTE", FlagType::quote, "more quotes like --with", false, true}},
      .flags = {{"--with", FlagType::quote, "a quote not yet accepted, as if it were: 26-014b"},
                {"--by", FlagType::date, "the day on which what names none needs its materials; else today"}},
      .examples = {"stock to-buy", "stock to-buy --by 2026-12-10"},
      .refused_when = "",
      .writes = false,
      .lists = true,
      .run = run};
}

}  // namespace endband::cli
