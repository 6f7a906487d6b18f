// A supplier's parcel, or a customer's goods, come in: one lot a line.
#include "db/codes.h"
#include "db/customers.h"
#include "db/quotes.h"
#include "db/stock_ledger.h"

#include <string>
#include <utility>

namespace endband::db {
namespace {

constexpr std::string_view command = "stock receive";

class Receipt {
 public:
  Receipt(Writing& writing, Parcel const& parcel)
      : writing_(writing),
        workshop_(writing.workshop()),
        parcel_(parcel),
        formula_(formula_on(workshop_, parcel.on)) {}

  std::vector<Fault> check() {
    check_terms();
    find_owner();
    find_job();
    check_dates();
    if (parcel_.lines.empty()) add(FaultCode::missing_key, "line", "", "a line: CODE QUANTITY PRICE");
    for (std::size_t n = 0; n < parcel_.lines.size(); ++n) check_line(n);
    return std::move(faults_);
  }

  std::vector<LotId> write() {
    std::int64_t const delivery = owner_ == 0 ? write_delivery() : 0;
    std::vector<Landed> const landed = costs();
    std::vector<LotId> lots;
    for (std::size_t n = 0; n < parcel_.lines.size(); ++n) lots.push_back(write_line(n, landed[n], delivery));
    return lots;
  }

 private:
  void add(FaultCode code, std::string field, std::string found, std::string expected) {
    faults_.push_back(
        {code, {std::string(command), 0, 0, std::move(field)}, std::move(found), std::move(expected), {}});
  }
  void add_all(std::vector<Fault> faults) { faults_.insert(faults_.end(), faults.begin(), faults.end()); }

  void check_terms() {
    ParcelTerms const& terms = parcel_.terms;
    if (terms.rate <= Ratio(0)) add(FaultCode::out_of_range, "rate", ratio_text(terms.rate), "more than 0");
    if (parcel_.currency == workshop_.currency() && terms.rate != Ratio(1))
      add(FaultCode::contradiction, "rate", ratio_text(terms.rate),
          "no rate: the prices are in " + std::string(workshop_.currency().code()));
    if (terms.carriage.minor < 0)
      add(FaultCode::out_of_range, "carriage", money_text(terms.carriage), "0 or more");
    for (auto const& [name, share] : {std::pair{"duty", terms.duty}, std::pair{"tax", terms.purchase_tax},
                                      std::pair{"tax.recovered", terms.tax_recovered}})
      if (share < Ratio(0) || share > Ratio(1))
        add(FaultCode::out_of_range, name, ratio_text(share), "0 % to 100 %");
  }

  void find_owner() {
    if (parcel_.owner.empty()) return;
    Read<Customer> const customer =
        located(find_customer(workshop_, parcel_.owner), {std::string(command), 0, 0, "owner"});
    if (customer)
      owner_ = customer->id;
    else
      add_all(customer.error());
    if (parcel_.terms.carriage.minor != 0)
      add(FaultCode::contradiction, "carriage", money_text(parcel_.terms.carriage),
          "none: a customer's goods cost nothing here");
  }

  void find_job() {
    if (parcel_.job.empty()) return;
    Read<std::int64_t> const job = open_job(workshop_, parcel_.job, {std::string(command), 0, 0, "job"});
    if (job)
      job_ = *job;
    else
      add_all(job.error());
  }

  void check_dates() {
    if (parcel_.keeps_until && *parcel_.keeps_until < parcel_.on)
      add(FaultCode::contradiction, "keeps-until", date_text(*parcel_.keeps_until),
          date_text(parcel_.on) + " or later, the day it came in");
  }

  void check_line(std::size_t n) {
    ParcelLine const& line = parcel_.lines[n];
    std::string const field = "line " + std::to_string(n + 1);
    Read<StockItem> const item = find_item(workshop_, line.code, {std::string(command), 0, 0, field});
    if (!item) {
      add_all(item.error());
      return;
    }
    items_.push_back(*item);
    if (line.quantity.dimension != item->dimension())
      add(FaultCode::wrong_unit, field, amount_text(line.quantity),
          "a quantity of " + item->code + ", which is sold by " + std::string(sold_by_name(item->sold_by)));
    else if (line.quantity.n <= 0)
      add(FaultCode::out_of_range, field, amount_text(line.quantity), "more than nothing");
    if (owner_ != 0 || !parcel_.owner.empty()) {
      if (line.price.minor != 0)
        add(FaultCode::contradiction, field, money_text(line.price),
            "no price: a customer's goods are worth nothing here");
    } else if (line.price.currency != parcel_.currency) {
      add(FaultCode::currency_mismatch, field, std::string(line.price.currency.code()),
          std::string(parcel_.currency.code()));
    } else if (line.price.minor < 0) {
      add(FaultCode::out_of_range, field, money_text(line.price), "0 or more");
    }
    if (costed(*item) != Costed::pool) return;
    Pool const pool = load_pool(workshop_.connection(), item->id);
    if (pool.moved_on && parcel_.on < *pool.moved_on)
      add(FaultCode::rule_refused, "on", date_text(parcel_.on),
          date_text(*pool.moved_on) + " or later: the average of " + item->code + " last moved then");
  }

  Costed costed(StockItem const& item) const {
    bool const own = formula_ == CostFormula::first_in_first_out || item.single() || !parcel_.job.empty() ||
                     !parcel_.owner.empty();
    return own ? Costed::own : Costed::pool;
  }

  std::vector<Landed> costs() const {
    if (owner_ != 0) {
      Money const nothing{0, workshop_.currency()};
      return {parcel_.lines.size(), {nothing, nothing, nothing, nothing, nothing, nothing}};
    }
    std::vector<Money> said;
    for (ParcelLine const& line : parcel_.lines) said.push_back(line.price);
    return landed_parcel(said, parcel_.terms, workshop_.currency());
  }

  std::int64_t write_delivery() {
    ParcelTerms const& terms = parcel_.terms;
    Statement insert(
        workshop_.connection(),
        "INSERT INTO delivery (on_date, supplier, currency, rate_num, rate_den, carriage, duty_num, "
        "duty_den, purchase_tax_num, purchase_tax_den, tax_recovered_num, tax_recovered_den, entry) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    return insert
        .bind(parcel_.on, parcel_.supplier, parcel_.currency, terms.rate, terms.carriage.minor, terms.duty,
              terms.purchase_tax, terms.tax_recovered, writing_.entry())
        .insert();
  }

  LotId write_line(std::size_t n, Landed const& landed, std::int64_t delivery) {
    ParcelLine const& line = parcel_.lines[n];
    StockItem const& item = items_[n];
    NewLot fresh;
    fresh.letter = item.single() ? 'K' : 'L';
    fresh.item = item;
    fresh.source = owner_ != 0 ? LotSource::custody : LotSource::received;
    fresh.costed = costed(item);
    fresh.on = parcel_.on;
    fresh.delivery = delivery;
    fresh.owner = owner_;
    fresh.job = job_;
    fresh.said = line.said;
    fresh.said_price = line.price.minor;
    fresh.landed = landed;
    fresh.height = line.height;
    fresh.width = line.width;
    fresh.thickness = line.thickness;
    fresh.batch = parcel_.batch;
    fresh.shade = parcel_.shade;
    Lot const lot = begin_lot(writing_, fresh);
    write_facts(lot.id);
    post_in(writing_, lot, line.quantity.n, landed.total.minor,
            {owner_ != 0 ? MovementKind::custody : MovementKind::received, parcel_.on, 0, ""});
    if (job_ != 0 && owner_ == 0) change_reservation(writing_, job_, item.id, lot.id.value, line.quantity.n);
    return lot.id;
  }

  void write_facts(LotId lot) {
    if (!parcel_.place.empty()) say_fact(writing_, lot, "place", parcel_.place);
    if (parcel_.opened_on) say_fact(writing_, lot, "opened-on", date_text(*parcel_.opened_on));
    if (parcel_.keeps_until) say_fact(writing_, lot, "keeps-until", date_text(*parcel_.keeps_until));
  }

  Writing& writing_;
  Workshop& workshop_;
  Parcel const& parcel_;
  CostFormula formula_;
  std::int64_t owner_ = 0, job_ = 0;
  std::vector<StockItem> items_;
  std::vector<Fault> faults_;
};

}  // namespace

Read<std::vector<LotId>> receive(Writing& writing, Parcel const& parcel) {
  Receipt receipt(writing, parcel);
  if (std::vector<Fault> faults = receipt.check(); !faults.empty()) return tl::unexpected(std::move(faults));
  return receipt.write();
}

}  // namespace endband::db
