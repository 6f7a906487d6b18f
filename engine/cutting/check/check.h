// The independent check of a plan: it shares nothing with the solvers but their types, and every plan passes
// through it before it is used. A plan with a fault is a fault of the program, never shown.
#pragma once

#include "engine/cutting/lengths/lengths.h"
#include "engine/cutting/sheets/sheets.h"
#include "engine/cutting/skins/skins.h"

#include <string_view>
#include <vector>

namespace endband::cutting {

enum class Broken : std::uint8_t {
  no_such_stock,
  no_such_piece,
  too_many_stock,
  demand,
  too_long,
  counts,
  times,
  no_such_part,
  cut_twice,
  cut_outside,
  part_size,
  part_place,
  part_used_twice,
  grain,
  angle,
  outside,
  in_flaw,
  overlap,
  grade,
  group,
  margin,
  kept,
  left,
  length,
  cost,
  bound,
  outcome
};
std::string_view broken_name(Broken broken);  // "in-flaw"
struct PlanFault {
  Broken broken;
  int used = -1;   // index into Answer::used; -1: the whole plan
  int index = -1;  // of the cut, laid piece or offcut there, the piece or stock of the request, or the group;
                   // -1: none
  friend bool operator==(PlanFault const&, PlanFault const&) = default;
};

// Empty: the plan is right. Every rule is looked at, also after the first fault. Checked: indices, copies of
// stock, demand met exactly, kerf, trim and margin, the guillotine cuts replayed, grain and angles, outline,
// flaws, overlap, grade, groups, what is kept or left, the cost as stated, and that the bound is not above
// it.
std::vector<PlanFault> check(LengthRequest const& request, Answer<CutRoll> const& answer);
std::vector<PlanFault> check(SheetRequest const& request, Answer<CutSheet> const& answer);
std::vector<PlanFault> check(SkinRequest const& request, Answer<CutSkin> const& answer);
// Not all pieces need be placed, none more than its copies. `cost` stands for the value, or the area, that is
// stated.
std::vector<PlanFault> check(Sheet const& sheet, std::vector<ValuedRect> const& pieces, std::int64_t kerf,
                             std::int64_t trim, OneSheet const& answer);
std::vector<PlanFault> check(Skin const& skin, std::vector<SkinPiece> const& pieces, std::int64_t margin,
                             Filled const& answer);

}  // namespace endband::cutting
