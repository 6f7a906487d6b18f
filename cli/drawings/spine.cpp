// Across the spine, seen from the head with the spine up. The middle of the block is x = 0; y = 0 is where
// the round begins: at the shoulders' edges, or the top of a flat back.
#include "cli/drawings/drawings.h"
#include "cli/drawings/sketch.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace endband::cli {
namespace {

using enum FigureId;

struct Spine {
  double block, wide, rise, radius, shoulder;  // T, C, r, R (0: flat), h
  double board = 0, setback = 0;               // no boards: 0
  double stiffener = 0;                        // W_p of a flat loose back, else C
  double depth = 0;                            // how far down it is drawn
  double gap = 0;                              // how far apart the layers on the back are drawn
  bool long_way = false;                       // more than half a circle
  double board_edge() const { return std::max(block, shoulder > 0 ? block : wide) / 2; }
};

std::optional<Spine> measured(Structure const& structure) {
  Figures const& figures = structure.figures;
  if (!known(figures, {block_thickness, chord, rise, arc})) return std::nullopt;
  Spine spine{};
  spine.block = figures.value(block_thickness);
  spine.wide = figures.value(chord);
  spine.rise = figures.value(rise);
  spine.radius = spine.rise > 0 ? figures.value_or(spine_radius, 0) : 0;
  spine.shoulder = figures.value_or(shoulder, 0);
  if (figures.value_or(boards, 0) > 0) {
    spine.board = figures.value_or(board_thickness, 0);
    spine.setback = figures.value_or(setback, 0);
  }
  spine.stiffener = spine.radius == 0 ? figures.value_or(spine_piece_width, spine.wide) : spine.wide;
  spine.long_way = figures.value_or(round_angle, 0) > 180;
  return spine;
}

// A round, or a flat, `up` mm outside the back from one end of it to the other. What is stiff reaches over
// the boards of a flat back.
Path layer(Spine const& spine, double up, Pen pen, bool stiff) {
  double const half = spine.wide / 2;
  if (spine.radius == 0 && stiff) {
    double const over = spine.stiffener / 2;
    return {{-over, -up}, {{{over, -up}, 0, true, false}}, false, pen, Fill::none};
  }
  if (spine.radius == 0) return {{-half, -up}, {{{half, -up}, 0, true, false}}, false, pen, Fill::none};
  // The centre lies R below the top of the round; the ends move out along their own radii.
  double const centre = spine.radius - spine.rise;
  double const out = (spine.radius + up) / spine.radius;
  double const y = centre - centre * out;
  return {
      {-half * out, y}, {{{half * out, y}, spine.radius + up, true, spine.long_way}}, false, pen, Fill::none};
}

void draw_block(Sketch& sketch, Spine const& spine) {
  double const half = spine.block / 2;
  double const wide = spine.wide / 2;
  Path outline{{-half, spine.depth}, {}, false, Pen::outline, Fill::none};
  // Shoulders stand square to the boards; a flat back of more than the block's thickness tapers to it.
  if (spine.shoulder > 0) outline.legs.push_back({{-half, 0}, 0, true, false});
  outline.legs.push_back({{-wide, 0}, 0, true, false});
  outline.legs.push_back({{wide, 0}, spine.radius, true, spine.long_way});
  if (spine.shoulder > 0) outline.legs.push_back({{half, 0}, 0, true, false});
  outline.legs.push_back({{half, spine.depth}, 0, true, false});
  sketch.add(outline);
  // A few leaves, so that it reads as a block.
  for (double const share : {-0.6, -0.2, 0.2, 0.6})
    sketch.line({share * half, spine.depth - sketch.paper(8)}, {share * half, spine.depth}, Pen::thin);
}

void draw_boards(Sketch& sketch, Spine const& spine) {
  if (spine.board == 0) return;
  double const edge = spine.board_edge();
  for (double const x : {-edge - spine.board, edge})
    sketch.add(
        Rectangle{{x, spine.setback}, spine.board, spine.depth - spine.setback, Pen::outline, Fill::hatch});
}

// Where the book is broken off.
void draw_break(Sketch& sketch, Spine const& spine) {
  double const from = -spine.board_edge() - spine.board - sketch.paper(2);
  double const step = sketch.paper(3);
  Path wave{{from, spine.depth}, {}, false, Pen::thin, Fill::none};
  int const waves = static_cast<int>(-2 * from / step) + 1;
  for (int i = 1; i <= waves; ++i)
    wave.legs.push_back({{from + i * step, spine.depth}, step * 0.7, i % 2 == 0, false});
  sketch.add(wave);
}

struct Layer {
  std::string words;
  Pen pen = Pen::thin;
  bool stiff = false;
};

std::vector<Layer> layers_on(BookSpec const& book, Structure const& structure) {
  std::vector<Layer> layers;
  auto const piece = [&](Item item) {
    return std::any_of(structure.pieces.begin(), structure.pieces.end(),
                       [&](Piece const& each) { return each.item == item; });
  };
  auto const add_if = [&](Item item, Pen pen, bool stiff = false) {
    if (piece(item)) layers.push_back({std::string(item_words(item)), pen, stiff});
  };
  add_if(Item::panel_linings, Pen::thin);
  add_if(Item::panel_papers, Pen::thin);
  add_if(Item::spine_linings, Pen::thin);
  add_if(Item::mull, Pen::hidden);
  add_if(Item::spine_papers, Pen::thin);
  if (piece(Item::hollow)) {
    layers.push_back({"hollow, the side on the spine", Pen::outline, false});
    layers.push_back({"hollow, the double side", Pen::outline, false});
  }
  add_if(Item::stiffener, Pen::outline, true);
  if (book.has(Part::cover) && book.ways.has(Way::wrapper))
    layers.push_back({"wrapper", Pen::accent, true});
  else if (book.has(Part::cover) && !book.ways.has(Way::open_back))
    layers.push_back({"covering", Pen::accent, true});
  return layers;
}

// Half way from the top of the round to its right end, `up` mm outside the back.
Point beside_top(Spine const& spine, double up) {
  if (spine.radius == 0) return {spine.wide / 4, -up};
  double const turned = std::asin(std::min(1.0, spine.wide / 2 / spine.radius)) / 2;
  double const centre = spine.radius - spine.rise;
  return {(spine.radius + up) * std::sin(turned), centre - (spine.radius + up) * std::cos(turned)};
}

// From one board over the back to the other; the joints between are as it sinks into them. A wrapper lies
// along the block.
Path covering(Sketch const& sketch, Spine const& spine, double up) {
  Path path = layer(spine, up, Pen::accent, true);
  if (spine.board == 0 && spine.radius == 0) {
    double const clear = sketch.paper(0.6);
    Point const corner{spine.wide / 2 + clear, -up};
    Point const end{spine.block / 2 + clear, spine.depth};
    path.start = {-end.x, end.y};
    path.legs = {{{-corner.x, corner.y}, 0, true, false}, {corner, 0, true, false}, {end, 0, true, false}};
  }
  if (spine.board == 0) return path;
  double const outside = spine.board_edge() + spine.board + sketch.paper(0.6);
  double const inside = spine.board_edge() + sketch.paper(0.6);
  Point const over_left = path.start;
  Leg const over = path.legs.front();
  path.start = {-outside, spine.depth};
  path.legs = {{{-outside, spine.setback}, 0, true, false}};
  auto const to = [&](Point point) { path.legs.push_back({point, 0, true, false}); };
  if (spine.setback > 0) to({-inside, spine.setback / 2});
  to(over_left);
  path.legs.push_back(over);
  if (spine.setback > 0) to({inside, spine.setback / 2});
  to({outside, spine.setback});
  to({outside, spine.depth});
  return path;
}

// The layers, the outermost named first, at the right.
void draw_layers(Sketch& sketch, Spine const& spine, std::vector<Layer> const& layers) {
  double const right = spine.board_edge() + spine.board + sketch.paper(14);
  double y = -spine.rise - spine.gap * static_cast<double>(layers.size()) - sketch.paper(1);
  for (std::size_t i = layers.size(); i-- > 0;) {
    double const up = spine.gap * static_cast<double>(i + 1);
    bool const outermost = layers[i].pen == Pen::accent;
    sketch.add(outermost ? covering(sketch, spine, up) : layer(spine, up, layers[i].pen, layers[i].stiff));
    sketch.pointer(beside_top(spine, up), {right, y}, layers[i].words);
    y += sketch.paper(3.8);
  }
}

void draw_measures(Sketch& sketch, Spine const& spine, Figures const& figures, double top) {
  double const edge = spine.board_edge();
  double const left = edge + spine.board;
  sketch.add(DimensionLine{{-spine.block / 2, spine.depth}, {spine.block / 2, spine.depth}, 7, "T"});
  if (spine.board > 0) sketch.add(DimensionLine{{edge, spine.depth}, {left, spine.depth}, 7, "t"});
  double const across = top - sketch.paper(10);
  if (spine.radius > 0) {
    double const half = spine.wide / 2;
    sketch.add(DimensionLine{{-half, 0}, {half, 0}, across / sketch.paper(1), "C"});
    sketch.line({-left - sketch.paper(10), -spine.rise}, {0, -spine.rise}, Pen::thin);
    sketch.line({-left - sketch.paper(10), 0}, {-half, 0}, Pen::thin);
    sketch.add(DimensionLine{{-left, -spine.rise}, {-left, 0}, -9, "r"});
  }
  if (figures.has(spine_width)) {
    double const half = figures.value(spine_width) / 2;
    double const y = across - sketch.paper(spine.radius > 0 ? 7 : 0);
    sketch.add(DimensionLine{{-half, y}, {half, y}, 0, "B"});
  }
  if (spine.setback > 0) sketch.add(DimensionLine{{-left, 0}, {-left, spine.setback}, -6, "sb"});
}

// What no straight measure shows.
std::string round_words(Spine const& spine, Figures const& figures) {
  std::string words = "A " + tenths(figures.value(arc));
  if (spine.radius > 0) words = "R " + tenths(spine.radius) + ", " + words;
  if (spine.shoulder > 0) words += ", h " + tenths(spine.shoulder);
  return words;
}

std::string key_words(Spine const& spine) {
  std::string words = spine.radius > 0 ? "T block, B spine before rounding, A over the round"
                                       : "T block, B spine, A over the back";
  if (spine.radius > 0) words += ", C across, r rise, R radius";
  if (spine.shoulder > 0) words += ", h shoulder";
  if (spine.board > 0) words += ", t board";
  if (spine.setback > 0) words += ", sb setback";
  return words + ".";
}

std::string spine_words(Spine const& spine, Figures const& figures, std::vector<Layer> const& layers) {
  std::string words = fmt::format("A block {} thick with a {} back", mm_words(spine.block),
                                  spine.radius == 0    ? "flat"
                                  : spine.shoulder > 0 ? "rounded and backed"
                                                       : "rounded");
  if (figures.has(spine_width) && spine.radius > 0)
    words += fmt::format(", {} before rounding", mm_words(figures.value(spine_width)));
  words += fmt::format(", {} over the back", mm_words(figures.value(arc)));
  if (spine.radius > 0)
    words += fmt::format(": {} across, rise {}, radius {}", mm_words(spine.wide), mm_words(spine.rise),
                         mm_words(spine.radius));
  if (spine.shoulder > 0) words += fmt::format(", shoulders {} high", mm_words(spine.shoulder));
  words += ".";
  if (spine.board > 0)
    words += spine.setback > 0 ? fmt::format(" Boards of {} stand {} off it.", mm_words(spine.board),
                                             mm_words(spine.setback))
                               : fmt::format(" Boards of {} lie against it.", mm_words(spine.board));
  for (std::size_t i = 0; i < layers.size(); ++i)
    words += (i == 0 ? " On the back, from inside: " : ", ") + layers[i].words;
  return layers.empty() ? words : words + ".";
}

}  // namespace

std::optional<Drawing> draw_spine(BookSpec const& book, Structure const& structure, OnPaper const& on) {
  auto spine = measured(structure);
  if (!spine || !book.has(Part::spine)) return std::nullopt;
  auto const layers = layers_on(book, structure);
  double const wide = spine->wide + 2 * spine->board;
  constexpr Paper around{110, 80};
  // A thin book is drawn larger than it is, as far as it goes on the paper: else nothing could be read.
  double scale = scale_for(wide, spine->rise + 30, around, on);
  for (auto const& [thinner, larger] : {std::pair{30.0, 0.5}, std::pair{12.0, 0.2}})
    if (wide < thinner && on.holds(wide, 0, around, larger * on.letters)) scale = larger * on.letters;
  Sketch sketch("spine", "The spine, seen from the head", book.title, scale, on);
  spine->gap = sketch.paper(2.2);
  spine->depth = std::max(sketch.paper(24), spine->setback + sketch.paper(12));
  draw_block(sketch, *spine);
  draw_boards(sketch, *spine);
  draw_break(sketch, *spine);
  draw_layers(sketch, *spine, layers);
  Figures const& figures = structure.figures;
  double const top = -spine->rise - spine->gap * static_cast<double>(layers.size());
  draw_measures(sketch, *spine, figures, top);
  double const left = -spine->board_edge() - spine->board;
  std::vector<std::string> notes{round_words(*spine, figures) + ".", key_words(*spine)};
  if (!layers.empty())
    notes.emplace_back("What lies on the back is drawn apart, so that it can be seen; all else is to scale.");
  std::size_t line = 0;
  for (std::string const& words : notes)
    line += sketch.note({left, spine->depth + sketch.paper(16 + 4.5 * static_cast<double>(line))}, words);
  return std::move(sketch).finish(spine_words(*spine, figures, layers));
}

}  // namespace endband::cli
