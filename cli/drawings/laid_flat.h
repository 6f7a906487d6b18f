// Where boards and spine lie on a covering of one piece or in parts. Private to the drawings of the cover.
#pragma once

#include "cli/drawings/sketch.h"
#include "engine/book/structure.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// From the upper left corner of all that covers, the inside up: the front board lies at the left.
struct LaidFlat {
  double width = 0, height = 0;  // of the whole
  double across = 0, down = 0;   // from the corner to the front board
  double board_width = 0, board_height = 0;
  double joint = 0, back = 0;  // between a board and the back; the back itself
  double front_end() const { return across + board_width; }
  double back_start() const { return front_end() + joint; }
  double back_end() const { return back_start() + back; }
  double rear() const { return back_end() + joint; }  // where the other board begins
};
std::optional<LaidFlat> laid_flat(BookSpec const& book, Figures const& figures);

// A board with its name along its grain.
void draw_board(Sketch& sketch, Point corner, double width, double height, std::string name, bool seen);
// A line at 45 degrees where the turn-in is cut off at a board's corner, a board and a half away from it: cut
// nearer, the edge shows.
void draw_mitre(Sketch& sketch, Point board_corner, double right, double down, double margin, double board);

std::optional<Drawing> draw_full_cover(BookSpec const& book, Structure const& structure, OnPaper const& on);
std::optional<Drawing> draw_cover_in_parts(BookSpec const& book, Structure const& structure,
                                           OnPaper const& on);
std::optional<Drawing> draw_board_covers(BookSpec const& book, Structure const& structure, OnPaper const& on);
std::optional<Drawing> draw_wrapper(BookSpec const& book, Structure const& structure, OnPaper const& on);

}  // namespace endband::cli
