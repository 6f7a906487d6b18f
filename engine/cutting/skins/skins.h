// Pieces from skins: outline, flaws, zones by grade, and the backbone, which runs up (along y). A piece is a
// rectangle or a simple polygon.
#pragma once

#include "engine/cutting/answer.h"
#include "engine/cutting/geometry/geometry.h"

#include <optional>

namespace endband::cutting {

struct Skin {
  Polygon outline;
  std::vector<Polygon> flaws;  // not usable; may reach over the outline
  std::vector<Zone> zones;     // where they overlap the poorest counts
  int grade = 0;               // of what lies in no zone; a higher grade is better
  std::int64_t cost = 0;
  std::optional<std::int64_t> copies = 1;  // nullopt: as many of this shape as wanted
  int batch = 0;  // skins of one batch may share a piece group; copies are of one batch
};

enum class Together : std::uint8_t { one_skin, one_batch };
struct SkinPiece {
  Polygon shape;  // at angle 0
  std::int64_t copies = 1;
  std::vector<int> angles{0};  // degrees it may be turned by
  int least_grade = 0;         // it touches no zone of a lower one
  int group = 0;               // > 0: all pieces of the group from one skin or one batch
  Together together = Together::one_skin;
};
struct SkinRequest {
  std::vector<Skin> skins;
  std::vector<SkinPiece> pieces;
  std::int64_t margin = 0;  // at least this much between pieces, and to the edge and flaws
  std::int64_t least_kept =
      0;          // the largest rectangle left is kept when both its sides reach this; 0: nothing is
  Worth worth{};  // of what is kept, of the skin's cost by its share of the usable area, rounded down
};

struct LaidPiece {
  int piece = 0;
  int angle = 0;  // one of its angles
  Point at;       // where the lower left corner of its box lies, as turned(shape, angle) begins at (0, 0)
};
struct CutSkin {
  int skin = 0;
  std::vector<LaidPiece> laid;
  Box largest_left;  // the largest upright rectangle that is still free, of any grade; empty (all 0) when
                     // none
  std::int64_t twice_area_left = 0;  // usable area less that of the pieces
};

// Least sum of (cost of the skins used - worth of the largest rectangle kept of each); all pieces are placed,
// or the outcome says why not: `impossible` only with a proof. A side that is not positive, a polygon that is
// not simple, a negative cost, margin or count: std::logic_error. A step is about one position of one piece
// tried.
Answer<CutSkin> plan_skins(SkinRequest const& request, Budget const& budget);

// One skin filled as far as may be: the pieces of the greatest area. A group is placed whole or not at all.
struct Filled {
  CutSkin cut;
  std::int64_t twice_area = 0;  // of the pieces placed
  bool all = false;
  std::int64_t work = 0;
};
Filled fill_skin(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin,
                 Budget const& budget);

}  // namespace endband::cutting
