// What a book looks like, drawn for the bench: one function a drawing. Each asks figures and ways, never the
// binding, and gives nothing where the book has no such part or a figure that it needs is not known.
#pragma once

#include "cli/document/drawing.h"
#include "cli/drawings/sketch.h"
#include "engine/book/structure.h"

#include <optional>
#include <span>
#include <vector>

namespace endband::cli {

// The folded section from its fold, where the needle goes in: "section".
std::optional<Drawing> draw_section(BookSpec const& book, Structure const& structure);

// Across the spine, seen from the head: block, shoulders, boards, what lies on the back: "spine".
std::optional<Drawing> draw_spine(BookSpec const& book, Structure const& structure, OnPaper const& on = {});

// The covering laid flat, seen from inside, with the boards on it: "cover".
std::optional<Drawing> draw_cover(BookSpec const& book, Structure const& structure, OnPaper const& on = {});

// All that is cut of board, paper, cloth and leather, to one scale: "box" for the box's, "pieces" for the
// book's. Their numbers are the places in the list of pieces.
std::optional<Drawing> draw_box(BookSpec const& book, Structure const& structure,
                                std::span<Material const> materials);
std::optional<Drawing> draw_pieces(BookSpec const& book, Structure const& structure,
                                   std::span<Material const> materials);

// All that there is, in the order above: of each volume its section, spine and cover ("cover-2"), of all of
// them together, and their copies, the pieces.
std::vector<Drawing> drawings_of(BookSpec const& set, std::span<Structure const> volumes,
                                 Structure const& whole, std::span<Material const> materials);

}  // namespace endband::cli
