// Plans to cut in the words of the bench.
#pragma once

#include "cli/commands/cut_plan.h"

#include <string>
#include <vector>

namespace endband::cli {

// "K3, 0.61 m2", "L12, a sheet of 700 x 1000 mm", "new, 1.24 m off the roll, 1400 mm wide".
std::string cut_from_words(CutMaterial const& cut, CutUse const& use);
std::string cut_piece_words(CutFor const& piece);         // "boards, volume 2"
std::string cut_size_words(Length height, Length width);  // "219.6 x 164.4 mm": height by width
std::string cut_lie_words(CutLaid const& laid);           // "turned", "turned by 5 deg", or nothing
std::string cut_how_words(CutStep const& step);           // "across at 250"
// "1. boards", "310 x 700 left over", "waste", "568 x 700".
std::string cut_part_words(CutMaterial const& cut, CutPart const& part);
std::string cut_left_words(CutUse const& use);      // "left over: 310 x 700 mm"
std::string permille_words(std::int64_t permille);  // "84.2 %"
// "least cost, proven", "within 2 % of the least possible".
std::string cut_proof_words(cutting::Proof const& proof);

// Why there is no plan, a sentence each.
std::vector<std::string> cut_obstacle_words(CutMaterial const& cut);
struct CutObstacle {
  cutting::Obstacle obstacle;
  cutting::Side side = cutting::Side::none;  // of the piece as it is named
};
std::vector<CutObstacle> cut_obstacles(CutMaterial const& cut);

}  // namespace endband::cli
