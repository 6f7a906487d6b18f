#include "cli/commands/walk_shown.h"

#include "cli/words/selling_words.h"
#include "cli/words/values.h"
#include "engine/pricing/walk.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

class WalkTables {
 public:
  WalkTables(Document& document, Walk const& walk, SellingRules const& selling, Currency shop)
      : document_(document), walk_(walk), selling_(selling), shop_(shop), tax_(tax_of(selling)) {}

  void add() {
    begin("From the buyer's price", walk_.ticket.currency);
    add_paid();
    add_payout();
    if (walk_.payout.currency != shop_) {
      table_.add_total({"Paid out", money_text(walk_.payout)});
      document_.add(std::move(table_));
      begin("In the workshop's money: " + exchange_words(*selling_.outlet, shop_), shop_);
      table_.add({"Paid out", money_text(walk_.received + walk_.exchange_cost)});
      less("what the exchange takes", walk_.exchange_cost);
    }
    add_yours();
    document_.add(std::move(table_));
  }

 private:
  void begin(std::string title, Currency currency) {
    table_ = Table{{{std::move(title)}, {std::string(currency.code()), Align::decimal}}, {}};
  }
  void less(std::string words, Money money) {
    if (money.minor != 0) table_.add({"  less " + std::move(words), money_text(-money)});
  }
  void more(std::string words, Money money) {
    if (money.minor != 0) table_.add({"  " + std::move(words), money_text(money)});
  }

  std::string discount_words() const {
    std::string words;
    if (selling_.outlet && selling_.outlet->discount > Ratio(0))
      words = "trade discount " + percent(selling_.outlet->discount);
    if (selling_.discount)
      words += (words.empty() ? "" : ", ") + fmt::format("{} given away", percent(selling_.discount->share));
    return words;
  }

  void add_paid() {
    table_.add({"Ticket", money_text(walk_.ticket)});
    less(discount_words(), walk_.discount);
    more("carriage", walk_.carriage_shown);
    if (tax_.mode == TaxMode::added) more(tax_words(), walk_.tax);
    more("rounded for cash", walk_.cash_rounding);
    table_.add_total({"The buyer pays", money_text(walk_.paid)});
  }

  std::string tax_words() const {
    std::string const name = tax_.name.empty() ? "tax" : tax_.name;
    return tax_.own.empty() ? name + " " + percent(tax_.rate) : name;
  }

  void add_payout() {
    if (!selling_.outlet) return;
    for (std::size_t i = 0; i < walk_.fees.size(); ++i) less(selling_.outlet->fees[i].name, walk_.fees[i]);
    if (selling_.outlet->collects_tax) less(tax_words() + ", which the place pays over", walk_.tax);
  }

  void add_yours() {
    less(tax_words() + " to pay over", walk_.tax_due);
    less("carriage, at cost", walk_.carriage);
    table_.add_total({"Yours", money_text(walk_.yours)});
    less("what comes back, by its chance", walk_.returns);
    less("full cost", walk_.cost);
    table_.add_total({"Left", money_text(walk_.left)});
  }

  Document& document_;
  Walk const& walk_;
  SellingRules const& selling_;
  Currency shop_;
  TaxRules tax_;
  Table table_;
};

// Of a price that what stands at cost takes whole there is no margin.
std::string margin_text(Offer const& offer, Money standing) {
  return offer.goods <= standing ? "none" : percent_text(offer.margin, 1) + " %";
}

// What a discount does to the margin: it comes off the price, and all of it off what is left.
std::string given_away_words(FrozenQuote const& quote) {
  std::string text = fmt::format("{} given away: {}.", percent(quote.selling.discount->share),
                                 quote.selling.discount->reason);
  SellingRules full = quote.selling;
  full.discount.reset();
  auto const whole = offer(quote.sheet, quote.delivery, full, quote.goal, quote.shop);
  if (!whole) return text;
  return text + fmt::format(" It leaves {} instead of {}, a margin of {} instead of {}.",
                            money_words(quote.offer.left), money_text(whole->left),
                            margin_text(quote.offer, quote.sheet.standing),
                            margin_text(*whole, quote.sheet.standing));
}

Json fee_taken_json(std::string_view name, Money amount) {
  return Json::Object{{"name", name}, {"amount", money_json(amount)}};
}

}  // namespace

void add_walk(Document& document, Walk const& walk, SellingRules const& selling, Currency shop) {
  WalkTables(document, walk, selling, shop).add();
}

void add_walk(Document& document, FrozenQuote const& quote) {
  if (!quote.selling.outlet && !quote.selling.discount) return;
  if (quote.selling.outlet)
    document.paragraph(fmt::format("Through {}, {}.", quote.selling.outlet->name,
                                   outlet_kind_words(quote.selling.outlet->kind)));
  if (quote.selling.discount) document.paragraph(given_away_words(quote));
  add_walk(document, quote.offer.walk, quote.selling, quote.shop.currency);
}

void add_sending(Document& document, std::optional<SentBy> const& by) {
  if (!by) return;
  SentBy const& sent = *by;
  std::string text = fmt::format("Sent by {} to {}: the parcel weighs {}", sent.service, sent.country,
                                 mass_words(sent.mass));
  if (sent.volumetric > sent.mass) text += fmt::format(", for its size {}", mass_words(sent.volumetric));
  text += fmt::format("; counted as {}, {}", mass_words(sent.counted), money_words(sent.price));
  if (sent.insurance.minor != 0) text += fmt::format(" and {} of insurance", money_text(sent.insurance));
  document.paragraph(text + fmt::format(", insured for {}.", money_text(sent.insured)));
}

Json sent_by_json(std::optional<SentBy> const& sent) {
  if (!sent) return {};
  return Json::Object{{"service", sent->service},
                      {"country", sent->country},
                      {"mass_mg", sent->mass.n},
                      {"volumetric_mg", sent->volumetric.n},
                      {"counted_mg", sent->counted.n},
                      {"price", money_json(sent->price)},
                      {"insurance", money_json(sent->insurance)},
                      {"insured", money_json(sent->insured)}};
}

Json walk_json(Walk const& walk, SellingRules const& selling) {
  Json::Array fees;
  for (std::size_t i = 0; i < walk.fees.size(); ++i)
    fees.push_back(fee_taken_json(selling.outlet->fees[i].name, walk.fees[i]));
  return Json::Object{{"ticket", money_json(walk.ticket)},
                      {"discount", money_json(walk.discount)},
                      {"goods_shown", money_json(walk.goods_shown)},
                      {"carriage_shown", money_json(walk.carriage_shown)},
                      {"tax", money_json(walk.tax)},
                      {"cash_rounding", money_json(walk.cash_rounding)},
                      {"paid", money_json(walk.paid)},
                      {"goods", money_json(walk.goods)},
                      {"fees", fees},
                      {"all_fees", money_json(walk.all_fees)},
                      {"payout", money_json(walk.payout)},
                      {"exchange_cost", money_json(walk.exchange_cost)},
                      {"received", money_json(walk.received)},
                      {"tax_due", money_json(walk.tax_due)},
                      {"carriage", money_json(walk.carriage)},
                      {"yours", money_json(walk.yours)},
                      {"returns", money_json(walk.returns)},
                      {"cost", money_json(walk.cost)},
                      {"left", money_json(walk.left)},
                      {"price", money_json(walk.price)}};
}

Json selling_json(FrozenQuote const& quote) {
  SellingRules const& selling = quote.selling;
  bool const walked = selling.outlet || selling.discount;
  Json discount;
  if (selling.discount)
    discount =
        Json::Object{{"share", ratio_json(selling.discount->share)}, {"reason", selling.discount->reason}};
  Json made_to;
  if (quote.made_to)
    made_to = Json::Object{{"what", made_to_name(quote.made_to->what)}, {"because", quote.made_to->because}};
  return Json::Object{{"outlet", selling.outlet ? Json(selling.outlet->code) : Json()},
                      {"walk", walked ? walk_json(quote.offer.walk, selling) : Json()},
                      {"discount", discount},
                      {"made_to", made_to},
                      {"sent_by", sent_by_json(quote.sent_by)}};
}

}  // namespace endband::cli
