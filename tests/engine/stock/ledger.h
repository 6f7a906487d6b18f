// A shelf of one material, kept by what take and give_back answer: each posting goes into its lot's balance.
#pragma once

#include "engine/stock/stock.h"

#include <doctest/doctest.h>

#include <cstdint>
#include <vector>

namespace ledger {

using namespace endband;

inline std::int64_t value_of(std::vector<Posting> const& postings) {
  std::int64_t value = 0;
  for (Posting const& posting : postings) value += posting.value;
  return value;
}

inline std::int64_t quantity_of(std::vector<Posting> const& postings) {
  std::int64_t quantity = 0;
  for (Posting const& posting : postings) quantity += posting.quantity;
  return quantity;
}

struct Shelf {
  CostFormula formula = CostFormula::first_in_first_out;
  std::vector<LotBalance> lots;  // lot n has the id n
  PoolBalance pool;

  LotId receive(std::int64_t quantity, std::int64_t value, Costed costed) {
    LotId const id{static_cast<std::int64_t>(lots.size())};
    lots.push_back({id, costed, 0, 0});
    put({id, quantity, value}, +1);
    return id;
  }
  LotId receive(std::int64_t quantity, std::int64_t value) {
    return receive(quantity, value, formula == CostFormula::moving_average ? Costed::pool : Costed::own);
  }

  std::vector<Posting> take(std::int64_t wanted) { return take_from(lots, wanted); }
  std::vector<Posting> take_from(std::vector<LotBalance> const& some, std::int64_t wanted) {
    PoolBalance left = pool;
    std::vector<Posting> postings = endband::take(some, left, wanted);
    for (Posting const& posting : postings) put(posting, -1);
    // What take leaves in the pool is what its postings leave there.
    REQUIRE(left.quantity == pool.quantity);
    REQUIRE(left.value == pool.value);
    return postings;
  }

  // Into the lot, or out of it.
  void put(Posting const& posting, int sign) {
    LotBalance& lot = lots.at(static_cast<std::size_t>(posting.lot.value));
    lot.quantity += sign * posting.quantity;
    if (lot.costed == Costed::own) {
      lot.value += sign * posting.value;
    } else {
      pool.quantity += sign * posting.quantity;
      pool.value += sign * posting.value;
    }
  }

  std::int64_t quantity() const {
    std::int64_t sum = 0;
    for (LotBalance const& lot : lots) sum += lot.quantity;
    return sum;
  }
  std::int64_t value() const {
    std::int64_t sum = pool.value;
    for (LotBalance const& lot : lots) sum += lot.value;
    return sum;
  }
};

}  // namespace ledger
