// Quantity and value are conserved over any sequence of receipts, takings, give-backs and offcuts, by either
// formula.
#include "tests/engine/stock/ledger.h"

#include <rapidcheck.h>

#include <algorithm>
#include <numeric>

using namespace endband;

namespace {

std::int64_t between(std::int64_t least, std::int64_t most) {
  return *rc::gen::inRange<std::int64_t>(least, most + 1);
}

// One material's shelf and one job; whatever happens, what was received is on the shelf or in the job.
struct Workshop {
  ledger::Shelf shelf;
  std::vector<Held> held;  // newest first
  std::int64_t received = 0, received_value = 0;

  void receive() {
    std::int64_t const quantity = between(1, 5000);
    std::int64_t const value = between(0, 3) == 0 ? 0 : between(0, 90'000);
    // Now and then goods bought for one job, which keep their own cost.
    if (between(0, 4) == 0)
      shelf.receive(quantity, value, Costed::own);
    else
      shelf.receive(quantity, value);
    received += quantity;
    received_value += value;
  }

  void take() {
    std::int64_t const on_hand = shelf.quantity();
    std::int64_t const wanted = between(0, on_hand + on_hand / 4);
    auto const postings = shelf.take(wanted);
    RC_ASSERT(ledger::quantity_of(postings) == std::min(wanted, on_hand));
    for (Posting const& posting : postings) {
      RC_ASSERT(posting.quantity > 0);
      RC_ASSERT(posting.value >= 0);
      held.insert(held.begin(), Held{posting.lot, posting.quantity, posting.value});
    }
  }

  void give_back() {
    std::int64_t const most =
        std::accumulate(held.begin(), held.end(), std::int64_t{0},
                        [](std::int64_t sum, Held const& one) { return sum + one.quantity; });
    std::int64_t const wanted = between(0, most + 10);
    auto const postings = endband::give_back(held, wanted);
    RC_ASSERT(ledger::quantity_of(postings) == std::min(wanted, most));
    std::size_t at = 0;
    for (Posting const& posting : postings) {
      while (held[at].quantity == 0 || held[at].lot != posting.lot) ++at;
      held[at].quantity -= posting.quantity;
      held[at].value -= posting.value;
      shelf.put(posting, +1);
    }
  }

  void keep_offcut() {
    auto const found = std::ranges::find_if(held, [](Held const& one) { return one.quantity > 0; });
    if (found == held.end()) return;
    std::int64_t const quantity = between(1, found->quantity);
    Ratio const worth(between(0, 20), 20);
    std::int64_t const value = kept_value(*found, quantity, worth);
    RC_ASSERT(value <= value_of_part(found->value, found->quantity, quantity));
    found->quantity -= quantity;
    found->value -= value;
    shelf.receive(quantity, value, Costed::own);
  }

  void check() const {
    std::int64_t in_job = 0;
    std::int64_t in_job_value = 0;
    for (Held const& one : held) {
      RC_ASSERT(one.quantity >= 0);
      RC_ASSERT(one.value >= 0);
      in_job += one.quantity;
      in_job_value += one.value;
    }
    RC_ASSERT(shelf.quantity() + in_job == received);
    RC_ASSERT(shelf.value() + in_job_value == received_value);
    std::int64_t pooled = 0;
    for (LotBalance const& lot : shelf.lots) {
      RC_ASSERT(lot.quantity >= 0);
      RC_ASSERT(lot.value >= 0);
      RC_ASSERT(lot.quantity > 0 || lot.value == 0);
      if (lot.costed == Costed::pool) pooled += lot.quantity;
    }
    RC_ASSERT(shelf.pool.quantity == pooled);
    RC_ASSERT(shelf.pool.value >= 0);
    RC_ASSERT(pooled > 0 || shelf.pool.value == 0);
  }
};

Workshop any_month() {
  Workshop workshop;
  workshop.shelf.formula = *rc::gen::element(CostFormula::first_in_first_out, CostFormula::moving_average);
  workshop.receive();
  for (auto steps = between(1, 30); steps > 0; --steps) {
    switch (between(0, 6)) {
      case 0:
      case 1: workshop.receive(); break;
      case 2:
      case 3:
      case 4: workshop.take(); break;
      case 5: workshop.give_back(); break;
      default: workshop.keep_offcut();
    }
    workshop.check();
  }
  return workshop;
}

}  // namespace

TEST_CASE("what was received lies on the shelf or is in the job, to the unit and to the minor unit") {
  CHECK(rc::check([] { any_month(); }));
}

TEST_CASE("the last taking empties the shelf of its value too") {
  CHECK(rc::check([] {
    Workshop workshop = any_month();
    std::int64_t const worth = workshop.shelf.value();
    auto const postings = workshop.shelf.take(workshop.shelf.quantity());
    RC_ASSERT(ledger::value_of(postings) == worth);
    RC_ASSERT(workshop.shelf.quantity() == 0);
    RC_ASSERT(workshop.shelf.value() == 0);
  }));
}

TEST_CASE("each posting is within half a minor unit of its share of what was left") {
  CHECK(rc::check([] {
    std::int64_t const quantity = between(1, 1'000'000);
    std::int64_t const value = between(0, 1'000'000);
    std::int64_t const taken = between(0, quantity);
    std::int64_t const part = value_of_part(value, quantity, taken);
    RC_ASSERT(std::abs(part * quantity - value * taken) * 2 <= quantity);
    // The exact half goes up.
    RC_ASSERT((value * taken - part * quantity) * 2 != quantity);
  }));
}

TEST_CASE("lots that are alike cost the same by either formula") {
  CHECK(rc::check([] {
    std::int64_t const each = between(0, 500);
    ledger::Shelf first{CostFormula::first_in_first_out, {}, {}};
    ledger::Shelf average{CostFormula::moving_average, {}, {}};
    for (auto lots = between(1, 5); lots > 0; --lots) {
      std::int64_t const quantity = between(1, 100);
      first.receive(quantity, quantity * each);
      average.receive(quantity, quantity * each);
    }
    std::int64_t const wanted = between(0, first.quantity());
    RC_ASSERT(first.take(wanted) == average.take(wanted));
    RC_ASSERT(first.value() == (first.quantity()) * each);
  }));
}

TEST_CASE(
    "a parcel's carriage is borne by its lines to the last minor unit, none more than one off its share") {
  CHECK(rc::check([] {
    Currency const eur = read_currency("EUR").value();
    std::vector<Money> said;
    for (auto lines = between(1, 8); lines > 0; --lines)
      said.push_back({between(0, 5) == 0 ? 0 : between(1, 90'000), eur});
    ParcelTerms terms;
    terms.rate = Ratio(between(1, 300), 100);
    terms.carriage = {between(0, 20'000), eur};
    terms.duty = Ratio(between(0, 20), 100);
    terms.purchase_tax = Ratio(between(0, 30), 100);
    terms.tax_recovered = Ratio(between(0, 4), 4);
    auto const landed = landed_parcel(said, terms, eur);
    RC_ASSERT(landed.size() == said.size());
    std::int64_t carriage = 0;
    std::int64_t prices = 0;
    for (Landed const& line : landed) {
      carriage += line.carriage.minor;
      prices += line.price.minor;
    }
    RC_ASSERT(carriage == terms.carriage.minor);
    for (std::size_t n = 0; n < landed.size(); ++n) {
      Landed const& line = landed[n];
      RC_ASSERT(std::abs(line.price.minor * terms.rate.den() - said[n].minor * terms.rate.num()) * 2 <=
                terms.rate.den());
      if (prices > 0)
        RC_ASSERT(std::abs(line.carriage.minor * prices - terms.carriage.minor * line.price.minor) < prices);
      RC_ASSERT(line.total == line.price + line.carriage + line.duty + line.tax_borne);
      if (terms.tax_recovered == Ratio(1)) RC_ASSERT(line.tax_borne.minor == 0);
      if (terms.tax_recovered == Ratio(0)) RC_ASSERT(line.tax_borne == line.tax);
    }
  }));
}
