// Shelves and wants, short to write.
#pragma once

#include "engine/stock/to_buy.h"
#include "tests/engine/catalogue/goods.h"

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace wanting {

using namespace endband;

inline Date in_days(int days) { return goods::day() + std::chrono::days(days); }

struct Shop {
  std::vector<MaterialSupply> materials;
  std::vector<OnShelf> shelf;
  std::vector<Wanted> wanted;
  BuyingRules buying;

  Supply& sells(Material material) {
    materials.push_back({std::move(material), {}});
    return materials.back().supply;
  }
  // Base units of the first material.
  OnShelf& holds(std::int64_t quantity, std::optional<Date> good_until = {}, std::string batch = {}) {
    OnShelf lot;
    lot.material = materials.front().material.id;
    lot.lot = {static_cast<std::int64_t>(shelf.size()) + 1};
    lot.quantity = quantity;
    lot.batch = std::move(batch);
    lot.good_until = good_until;
    return shelf.emplace_back(lot);
  }
  Wanted& wants(std::string job, std::int64_t quantity, Date needed_on, std::int64_t of_one_batch = 0) {
    Wanted want;
    want.job = std::move(job);
    want.material = materials.front().material.id;
    want.quantity = quantity;
    want.needed_on = needed_on;
    want.of_one_batch = of_one_batch;
    return wanted.emplace_back(want);
  }
  std::vector<Buy> buys() const { return to_buy(materials, shelf, wanted, buying, goods::day()); }
};

}  // namespace wanting
