// The shelf as `stock list` shows it: a row a material, with its lots.
#pragma once

#include "cli/commands/stock_shape.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "db/stock.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace endband::cli {

struct ShelfLine {
  db::ShelfRow shelf;
  Amount free;      // good on the day, less what is reserved
  Amount dead;      // past its day
  int whole = 0;    // lots that are no offcuts: of skins, the skins
  Amount in_whole;  // what these hold
  int offcuts = 0;
  std::optional<std::int64_t> reorder_at;
  std::vector<db::LotRow> lots;
  bool low() const { return reorder_at && free.n <= *reorder_at; }
};

enum class ListOf : std::uint8_t { materials, lots, custody };

struct StockList {
  std::vector<ShelfLine> lines;
  Outlines outlines;  // of the lots in them that are skins
  ListOf of = ListOf::materials;
  bool past = false;   // of a day before the last movement: as the movements up to then sum up, without lots
  bool whole = false;  // all of the shelf is in it: no filter was said
  db::StockValue value;
  Currency currency;
  Date on;
};
Json to_json(StockList const& view);
Document to_document(StockList const& view);

}  // namespace endband::cli
