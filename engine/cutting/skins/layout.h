// Pieces laid on skins, and the one move that the search is made of: the best place for a unit among those
// that touch.
#pragma once

#include "engine/chance/random.h"
#include "engine/cutting/skins/lines.h"

namespace endband::cutting::skins {

struct Laid {
  int unit = 0, piece = 0;  // piece: of the request
  int shape = 0;
  std::int64_t x = 0, y = 0, wide = 0, high = 0;  // steps
  Box cells;
  bool upright = true;
};

// What makes a place a good one; varied by the search.
struct Style {
  std::int64_t ring = 4;                // cells looked at around the piece
  std::int64_t pull_x = 0, pull_y = 0;  // towards a corner, in 1024ths of the contact
  std::int64_t noise = 0;
  std::int64_t extra_lines = 0;  // looked along besides those of touching
  bool first_bin = false;        // the first that takes it; else the best of all
};

// Steps of a bin that have become free; only places that meet one are new.
struct Freed {
  int bin = 0;
  std::int64_t x = 0, y = 0, wide = 0, high = 0;
};

class Layout {
 public:
  // `bins`: a site each.
  Layout(Space const& space, Lines& lines, std::vector<int> bins);

  // Whole or not at all. `freed`: looks only there.
  bool insert(int unit, Style const& style, Random& random, std::vector<Freed> const* freed = nullptr);
  // Lays a unit of one piece at a good place of the bare skin; what lies there is taken out.
  bool force(int unit, int bin, Random& random, std::vector<int>& removed, std::vector<Freed>& freed);
  void remove(int unit, std::vector<Freed>& freed);
  // Puts it where it has been laid in another layout.
  void put(int bin, Laid laid);

  bool placed(int unit) const { return placed_[static_cast<std::size_t>(unit)] != 0; }
  std::vector<std::vector<Laid>> const& bins() const { return bins_; }
  std::vector<int> const& sites() const { return sites_; }
  std::int64_t twice_area() const { return twice_area_; }
  std::size_t units_placed() const { return units_placed_; }
  void clear();
  std::int64_t work() const { return work_; }
  Space const& space() const { return space_; }

  // For the search: the state, to return to.
  struct State {
    std::vector<std::vector<Laid>> bins;
    std::vector<std::uint8_t> placed;
    std::int64_t twice_area = 0;
    std::size_t units_placed = 0;
  };
  void save(State& state) const;
  void restore(State const& state);

 private:
  struct Found {
    std::int64_t score = -1;
    int bin = -1;
    Laid laid;
  };
  bool insert_into(int unit, int first_bin, int last_bin, int batch, Style const& style, Random& random,
                   std::vector<Freed> const* freed);
  void look(int kind, int bin, Style const& style, Random& random, std::vector<Freed> const* freed,
            Found& best);
  void look_along(int bin, int shape, Axis axis, std::int64_t position);
  void weigh(int bin, int shape, std::int64_t x, std::int64_t y, Style const& style, Random& random,
             Found& best);
  bool overlaps(Laid const& laid, int shape, std::int64_t x, std::int64_t y);
  bool blocked(int bin, int shape, std::int64_t x, std::int64_t y);
  bool meets_freed(int bin, Shape const& shape, std::int64_t x, std::int64_t y,
                   std::vector<Freed> const& freed) const;

  Space const& space_;
  Lines& lines_;
  std::vector<int> sites_;
  std::vector<std::vector<Laid>> bins_;
  std::vector<std::uint8_t> placed_;
  std::int64_t twice_area_ = 0;
  std::size_t units_placed_ = 0;
  std::int64_t work_ = 0;
  std::vector<Free> taken_;
  std::vector<Spot> spots_;
  std::vector<std::int64_t> columns_, rows_;
};

}  // namespace endband::cutting::skins
