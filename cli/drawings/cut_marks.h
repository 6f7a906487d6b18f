// What the drawings of sheets and of skins share. Private to them.
#pragma once

#include "cli/drawings/cut_drawing.h"
#include "cli/drawings/sketch.h"

#include <string>
#include <vector>

namespace endband::cli {

inline constexpr double cut_list_row = 4.2;  // mm of paper
inline constexpr double cut_letters = 2.8;

double cut_mm(std::int64_t um);
// As Sketch's scale_for, in finer steps: names go into their pieces, and all measures are written.
double cut_scale(CutUse const& use, Paper around, OnPaper const& on);
Sketch cut_sketch(CutUse const& use, CutNames const& names, double scale, OnPaper const& on);
// Number, name and size within the rectangle that a piece fills: along its grain where they go in, else as
// much of it as does.
void draw_cut_name(Sketch& sketch, CutLaid const& laid, CutNames const& names, bool upwards);
void draw_cut_left(Sketch& sketch, CutLeft const& left);
// Under `foot`: what the numbers are.
std::vector<std::string> draw_cut_list(Sketch& sketch, CutUse const& use, CutNames const& names, double foot);
double cut_list_height(CutUse const& use);  // mm of paper, with title and scale

Drawing draw_cut_sheet(CutUse const& use, CutNames const& names, OnPaper const& on);
Drawing draw_cut_skin(CutUse const& use, CutNames const& names, OnPaper const& on);

}  // namespace endband::cli
