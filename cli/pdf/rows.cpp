#include "cli/pdf/rows.h"

#include "cli/pdf/columns.h"

#include <algorithm>

namespace endband::cli::pdf {
namespace {

constexpr double above = mm(1.1), below = mm(1.1);  // of a row's letters
constexpr double box_height = mm(6.5);
constexpr std::size_t kept_whole = 12;  // lines of a row that go to one page together

struct Cell {
  std::shared_ptr<Lines const> front, back;  // back: what stands behind the point
  double x = 0;
  double right = 0;  // where the front ends, of a number; else 0
};

struct Shape {
  Type& type;
  Table const& table;
  Columns columns;
  double width;
};

Cell cell_of(Shape const& shape, std::size_t c, std::string const& words, Weight weight, bool title) {
  Column const& column = shape.table.columns[c];
  double const left = shape.columns.left[c], width = shape.columns.width[c];
  Style const style{shape.columns.size, weight, ink};
  auto const set = [&](std::string_view text, double wide) {
    return std::make_shared<Lines const>(shape.type.set(text, style, wide));
  };
  if (column.align == Align::left) return {set(words, width), nullptr, left, 0};
  if (title) return {set(words, width), nullptr, left, left + width};
  if (column.align == Align::right) return {set(words, -1), nullptr, left, left + width};
  auto const [front, back] = at_the_point(words);
  return {set(front, -1), set(back, -1), left, left + width - shape.columns.behind[c]};
}

void draw_line(cairo_t* on, Cell const& cell, std::size_t line, double x, double y) {
  if (line < cell.front->count()) {
    double const at = cell.right > 0 ? cell.right - cell.front->width_of(line) : cell.x;
    cell.front->draw(on, line, x + at, y);
  }
  if (cell.back && line < cell.back->count()) cell.back->draw(on, line, x + cell.right, y);
}

struct Box {
  double x = 0, width = 0;
};

// Where something is to be written by hand: empty cells of its column.
std::vector<Box> boxes_of(Shape const& shape, Row const& row) {
  std::vector<Box> boxes;
  for (std::size_t c = 0; c < shape.table.columns.size(); ++c)
    if (shape.table.columns[c].box && (c >= row.cells.size() || row.cells[c].empty()))
      boxes.push_back({shape.columns.left[c], shape.columns.width[c]});
  return boxes;
}

void draw_boxes(cairo_t* on, std::vector<Box> const& boxes, double x, double y) {
  cairo_set_source_rgb(on, 0, 0, 0);
  cairo_set_line_width(on, mm(0.25));
  cairo_set_dash(on, nullptr, 0, 0);
  for (Box const& box : boxes) cairo_rectangle(on, x + box.x, y, box.width, box_height);
  cairo_stroke(on);
}

// A row is as many pieces as its highest cell has lines.
std::vector<Piece> row_pieces(Shape const& shape, Row const& row, std::shared_ptr<Piece const> const& head) {
  auto cells = std::make_shared<std::vector<Cell>>();
  std::size_t count = 1;
  double line_height = 0;
  for (std::size_t c = 0; c < std::min(row.cells.size(), shape.columns.left.size()); ++c) {
    cells->push_back(cell_of(shape, c, row.cells[c], row.total ? Weight::bold : Weight::plain, false));
    count = std::max(count, cells->back().front->count());
    line_height = std::max(line_height, cells->back().front->line_height());
  }
  std::vector<Box> const boxes = boxes_of(shape, row);
  std::vector<Piece> pieces;
  for (std::size_t line = 0; line < count; ++line) {
    bool const first = line == 0, last = line + 1 == count;
    double height = line_height;
    if (first && !boxes.empty() && last) height = std::max(height, box_height);
    Piece piece{0, height + (first ? above : 0) + (last ? below : 0), !last && count <= kept_whole};
    piece.head = head;
    piece.draw = [cells, line, first, last, boxes, total = row.total, width = shape.width,
                  height = piece.height](cairo_t* on, double x, double y) {
      double const top = y + (first ? above : 0);
      for (Cell const& cell : *cells) draw_line(on, cell, line, x, top);
      if (first) draw_boxes(on, boxes, x, top);
      if (first && total) rule(on, x, y, width, mm(0.3), 0x1b / 255.0);
      if (last) rule(on, x, y + height, width, mm(total ? 0.3 : 0.1), total ? 0x1b / 255.0 : 0xc9 / 255.0);
    };
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

Piece head_piece(Shape const& shape) {
  auto cells = std::make_shared<std::vector<Cell>>();
  double height = 0;
  for (std::size_t c = 0; c < shape.table.columns.size(); ++c) {
    cells->push_back(cell_of(shape, c, shape.table.columns[c].title, Weight::bold, true));
    height = std::max(height, cells->back().front->height());
  }
  Piece piece{mm(3), above + height + below, true};
  piece.draw = [cells, width = shape.width, whole = piece.height](cairo_t* on, double x, double y) {
    for (Cell const& cell : *cells)
      for (std::size_t line = 0; line < cell.front->count(); ++line)
        draw_line(on, cell, line, x, y + above + cell.front->line_height() * static_cast<double>(line));
    rule(on, x, y + whole, width, mm(0.3), 0x1b / 255.0);
  };
  return piece;
}

}  // namespace

void rule(cairo_t* on, double x, double y, double width, double thick, double light) {
  cairo_set_source_rgb(on, light, light, light);
  cairo_set_line_width(on, thick);
  cairo_set_dash(on, nullptr, 0, 0);
  cairo_move_to(on, x, y);
  cairo_line_to(on, x + width, y);
  cairo_stroke(on);
}

std::vector<Piece> table_pieces(Type& type, Table const& table, double width, double size) {
  Shape const shape{type, table, columns_of(type, table, width, size), width};
  std::vector<Piece> pieces{head_piece(shape)};
  auto const head = std::make_shared<Piece const>(pieces.front());
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    std::vector<Piece> of_row = row_pieces(shape, table.rows[r], head);
    // A total never stands alone on a page.
    if (r + 1 < table.rows.size() && table.rows[r + 1].total) of_row.back().with_next = true;
    for (Piece& piece : of_row) pieces.push_back(std::move(piece));
  }
  return pieces;
}

}  // namespace endband::cli::pdf
