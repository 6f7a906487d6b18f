// Keeping past commissions that were computed: quote, job, what it took and what its sale took.
#include "cli/commands/past_made.h"
#include "cli/words/book_words.h"
#include "db/customers.h"
#include "db/cutting.h"
#include "db/materials.h"
#include "db/past.h"
#include "db/stock.h"

#include <algorithm>
#include <array>
#include <utility>

namespace endband::cli {
namespace {

// On which a customer of the text was known at the latest.
Date first_day(PastText const& past) {
  auto const first = std::ranges::min_element(past.commissions, {}, &PastCommission::on);
  return first == past.commissions.end() ? Date{} : first->on;
}

// Of a line of the bill: so much was had for it, so much of that spoiled.
struct Had {
  BillLine const& line;
  Material const& material;
  Amount used, cut_away, spoiled;
  std::int64_t all() const { return used.n + cut_away.n + spoiled.n; }
};

class Keeping {
 public:
  Keeping(db::Writing& writing, PastComputed const& past)
      : writing_(writing), past_(past), said_(past.said), quote_(past.computed.quote) {}

  Read<PastKept> keep() {
    if (auto const same = db::same_quote(writing_, past_.computed.asked.customer, quote_))
      return refuse(
          {FaultCode::already_exists,
           said_.where,
           db::number_text(same->number),
           "another book, day or customer than that quote's; endband workshop undo takes an import back",
           {}});
    db::save_plans(writing_, past_.computed.new_plans);
    auto header =
        db::save_quote(writing_, past_.computed.asked.customer, past_.computed.asked.valid_until, quote_);
    if (!header) return tl::unexpected(std::move(header.error()));
    PastKept kept{.quote = *header, .job = {}};
    if (!said_.accepted) return kept;
    auto const accepted = db::quote_accept(writing_, *header, *said_.accepted, std::nullopt);
    if (!accepted) return tl::unexpected(accepted.error());
    auto job = db::find_job(writing_.workshop(), accepted->number);
    if (!job) return tl::unexpected(job.error());
    job_ = std::move(*job);
    if (said_.finished)
      if (auto const done = make(); !done) return tl::unexpected(done.error());
    kept.job = db::find_job(writing_.workshop(), accepted->number).value();
    return kept;
  }

 private:
  // Had on the day it was accepted, worked and sold on the day it was finished.
  Read<void> make() {
    if (auto const done = look_up_prices(); !done) return done;
    for (BillLine const& line : quote_.bill.lines)
      if (!line.customer_supplied)
        if (auto const done = take(had(line)); !done) return done;
    if (auto const done = work(); !done) return done;
    for (Outside const& outside : quote_.outside)
      if (auto const done = db::add_billed(writing_, job_, outside.words, outside.price, *said_.finished);
          !done)
        return tl::unexpected(done.error());
    if (db::load_record(writing_.workshop(), job_).custody_here)
      if (auto const done = db::give_back_custody(writing_, job_, *said_.finished, ""); !done)
        return tl::unexpected(done.error());
    if (job_.to_pay.minor > 0)
      if (auto const done = db::add_payment(writing_, job_, job_.to_pay, *said_.finished, ""); !done)
        return tl::unexpected(done.error());
    if (auto const done = sale(); !done) return done;
    if (auto const done = db::finish(writing_, job_, quote_, *said_.finished); !done)
      return tl::unexpected(done.error());
    return {};
  }

  Had had(BillLine const& line) {
    Material const& material = *material_of(quote_.materials, line.material);
    Amount spoiled = line.spoil;
    for (std::size_t i = 0; i < said_.spoiled.size(); ++i)
      if (said_.spoiled[i].material == material.code) spoiled = spoiled + past_.spoiled[i];
    Amount const cut{line.net.dimension, line.charged.n - line.net.n - line.spoil.n};
    return {line, material, line.net, cut, spoiled};
  }

  // Its own lots, at what it cost on that day: an item of a skin for each that was opened.
  Read<void> take(Had const& had) {
    if (had.all() <= 0) return {};
    bool const skin = had.material.sold_by == SoldBy::skin;
    std::int64_t const items = skin ? std::max<std::int64_t>(1, had.line.units_opened) : 1;
    db::Parcel parcel;
    parcel.on = *said_.accepted;
    parcel.currency = writing_.workshop().currency();
    parcel.terms.carriage = {0, parcel.currency};
    parcel.job = job_.number;
    std::int64_t left = had.all();
    for (std::int64_t i = 0; i < items; ++i) {
      Amount const part{had.line.net.dimension, i + 1 == items ? left : had.all() / items};
      left -= part.n;
      db::ParcelLine& line = parcel.lines.emplace_back();
      line.code = had.material.code;
      line.quantity = part;
      line.said = amount_text(part);
      line.price = cost_of(unit_of(had), part);
    }
    auto const lots = db::receive(writing_, parcel);
    if (!lots) return tl::unexpected(lots.error());
    return take_all(had, parcel, *lots);
  }

  Read<void> take_all(Had const& had, db::Parcel const& parcel, std::vector<LotId> const& lots) {
    std::array<std::pair<MovementKind, std::int64_t>, 3> rests{
        std::pair{MovementKind::used, had.used.n}, std::pair{MovementKind::spoiled, had.spoiled.n},
        std::pair{MovementKind::cut_away, had.cut_away.n}};
    std::vector<db::LotRow> const rows = db::lots(writing_.workshop(), had.material.code, false);
    for (std::size_t i = 0; i < lots.size(); ++i) {
      auto const row = std::ranges::find(rows, lots[i], &db::LotRow::id);
      std::int64_t left = parcel.lines[i].quantity.n;
      for (auto& rest : rests) {
        std::int64_t const part = std::min(left, rest.second);
        if (part <= 0) continue;
        left -= part;
        rest.second -= part;
        auto const done = db::take_for_job(writing_, job_.id, had.material.code, mark_text(row->mark),
                                           {had.line.net.dimension, part}, rest.first, *said_.accepted, "");
        if (!done) return tl::unexpected(done.error());
      }
    }
    return {};
  }

  // Of the day on which it was accepted.
  Read<void> look_up_prices() {
    auto const shop = db::load_shop(writing_.workshop(), *said_.accepted);
    if (!shop) return tl::unexpected(shop.error());
    std::vector<std::string> codes;
    for (Material const& material : quote_.materials) codes.push_back(material.code);
    auto catalogue = db::load_catalogue(writing_.workshop(), codes, *said_.accepted, shop->buying);
    if (!catalogue) return tl::unexpected(catalogue.error());
    then_ = std::move(*catalogue);
    return {};
  }
  UnitCost unit_of(Had const& had) const {
    Material const& material = then_.at(had.material.id);
    return material.price ? unit_cost(material, then_.buying) : had.line.unit;
  }

  // --- hours
  struct Quoted {
    OperationKind operation;
    Part part;
    std::int64_t seconds = 0;
  };

  std::vector<Quoted> quoted() const {
    std::vector<Quoted> all;
    for (WorkBeside const& beside : work_beside(quote_, JobRecord{}))
      if (beside.operation) all.push_back({*beside.operation, part_of(*beside.operation), beside.quoted.n});
    return all;
  }
  Part part_of(OperationKind kind) const {
    auto const line = std::ranges::find(quote_.work.lines, kind, &WorkLine::kind);
    return line == quote_.work.lines.end() ? Part::whole_book : line->part;
  }

  static std::int64_t taken_of(PastHours const& hours, std::int64_t quoted) {
    if (auto const* const time = std::get_if<Duration>(&hours.taken)) return time->n;
    return round_product(std::get<Ratio>(hours.taken), quoted, Rounding::half_away);
  }

  Read<void> tell(std::optional<OperationKind> operation, std::optional<Part> part, std::int64_t seconds) {
    if (seconds <= 0) return {};
    auto const done =
        db::add_time(writing_, job_, operation, part, {seconds}, std::nullopt, *said_.finished, "");
    if (!done) return tl::unexpected(done.error());
    return {};
  }

  bool named(Quoted const& quoted) const {
    return std::ranges::any_of(said_.hours, [&](PastHours const& hours) {
      return hours.operation == quoted.operation || hours.part == quoted.part;
    });
  }

  Read<void> work() {
    std::vector<Quoted> const all = quoted();
    for (PastHours const& hours : said_.hours) {
      std::int64_t of_quoted = 0;
      for (Quoted const& each : all)
        if (hours.operation == each.operation || hours.part == each.part) of_quoted += each.seconds;
      if (!hours.rest) {
        if (auto const done = tell(hours.operation, hours.part, taken_of(hours, of_quoted)); !done)
          return done;
        continue;
      }
      for (Quoted const& each : all)
        if (!named(each))
          if (auto const done = tell(each.operation, std::nullopt, taken_of(hours, each.seconds)); !done)
            return done;
    }
    return {};
  }

  Read<void> sale() {
    using Told = std::pair<db::SaleKind, std::optional<Money>>;
    PastSale const& sale = said_.sale;
    for (auto const& [kind, amount] :
         {Told{db::SaleKind::fees, sale.fees}, Told{db::SaleKind::carriage, sale.carriage},
          Told{db::SaleKind::exchange, sale.exchange}, Told{db::SaleKind::returned, sale.returned},
          Told{db::SaleKind::tax, sale.tax}})
      if (amount)
        if (auto const done = db::add_sale(writing_, job_, kind, *amount, *said_.finished, ""); !done)
          return tl::unexpected(done.error());
    return {};
  }

  db::Writing& writing_;
  PastComputed const& past_;
  PastCommission const& said_;
  FrozenQuote const& quote_;
  db::JobHeader job_;
  Catalogue then_;
};

}  // namespace

Read<std::vector<PastKept>> keep_past(db::Writing& writing, PastText const& past,
                                      std::vector<PastComputed> const& computed) {
  for (PastCustomer const& customer : past.customers) {
    // Of a text that was kept before and taken back the customers are there still.
    if (auto const there = db::find_customer(writing.workshop(), customer.code);
        there && there->name == customer.name)
      continue;
    db::Customer known;
    known.code = customer.code;
    known.name = customer.name;
    known.email = customer.email;
    known.since = first_day(past);
    if (auto const added = db::add_customer(writing, known); !added) return tl::unexpected(added.error());
  }
  std::vector<PastKept> kept;
  for (PastComputed const& each : computed) {
    auto one = Keeping(writing, each).keep();
    if (!one) return tl::unexpected(std::move(one.error()));
    kept.push_back(std::move(*one));
  }
  return kept;
}

}  // namespace endband::cli
