// The free stretches of a shape's corner along a column or row of steps of the bare skin, exact and worked
// out once: the feasible set of the shape is never drawn, only the lines that the search looks at. (A no-fit
// polygon by lines; compare Burke, Hellier, Kendall & Whitwell 2007.)
#pragma once

#include "engine/cutting/skins/space.h"

#include <map>
#include <span>

namespace endband::cutting::skins {

enum class Axis : std::uint8_t { column, row };
struct Free {  // steps, both included
  std::int32_t low = 0, high = 0;
};
struct Spot {
  std::int64_t x = 0, y = 0;
};

// A cache: one for each task, as asking writes it.
class Lines {
 public:
  explicit Lines(Space const& space);

  // Valid until the next call.
  std::span<Free const> at(int site, int shape, Axis axis, std::int64_t position);
  // Where `shape` at (0, 0) may not lie because of `other` at (0, 0); not for two upright ones.
  std::vector<Barrier> const& between(int other, int shape);
  // Good places of the shape on the bare skin: pressed into its bounds.
  std::vector<Spot> const& seeds(int site, int shape);
  std::int64_t work() const { return work_; }

 private:
  struct Table {
    std::vector<Barrier> barriers;
    std::vector<std::int32_t> columns, rows;  // place in pool_ + 1; 0: not asked yet
    std::vector<Spot> seeds;
    bool built = false, seeded = false;
  };
  Table& table(int site, int shape);
  void compute(Table const& table, Site const& site, Shape const& shape, Axis axis, std::int64_t position);
  void find_seeds(Table& table, int site, int shape);

  Space const& space_;
  std::vector<Table> tables_;  // by site, then shape
  std::vector<Free> pool_;     // a line: {count, 0}, then its stretches
  std::map<std::pair<int, int>, std::vector<Barrier>> between_;
  std::vector<Free> line_;
  std::int64_t work_ = 0;
  std::size_t held_ = 0;
};

// How much of the frame `ring` cells wide around a shape there is not free on the bare skin, of 1024.
std::int64_t pressed(Site const& site, Box const& cells, std::int64_t ring, std::int64_t free_less);
// The cells that a shape there covers.
Box cells_under(Space const& space, Site const& site, Shape const& shape, std::int64_t x, std::int64_t y);

}  // namespace endband::cutting::skins
