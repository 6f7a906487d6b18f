// How the book is put together: sections and sewing, spine and boards, with their drawings and templates.
#include "cli/commands/job_sheet_parts.h"
#include "cli/drawings/drawings.h"
#include "cli/drawings/stations.h"
#include "cli/drawings/templates.h"
#include "cli/words/book_words.h"
#include "cli/words/making_words.h"
#include "cli/words/values.h"
#include "engine/book/copies.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>

namespace endband::cli {
namespace {

using enum FigureId;

constexpr std::array block_figures{
    leaf_height,        leaf_width,          pages,           leaves,       sections,
    sheets_per_section, last_section_sheets, folds,           sheet_height, sheet_width,
    head_tail_trim,     fore_edge_trim,      block_thickness, guards,       guard_width,
    guards_a_leaf,      endpapers_each_end,  tip_width,       joint_reach};
constexpr std::array sewing_figures{supports,    support_width, support_thickness, cord_each,
                                    slip_length, stations,      kettle_setback,    holes,
                                    needlefuls,  needle_length, thread_length,     swell};
constexpr std::array spine_figures{spine_width,  arc,          chord,         rise,
                                   spine_radius, shoulder,     bands,         band_width,
                                   panels,       panel_height, lining_layers, paper_lining_layers,
                                   mull_height,  mull_width,   hollow_width,  spine_piece_width,
                                   endbands,     core_length,  registers,     register_length};
constexpr std::array board_figures{
    board_height, board_width,  board_thickness, square,       setback,           joint,
    lacing_holes, cover_height, cover_width,     turn_in,      spine_cover_width, spine_reach,
    side_height,  side_width,   corner_leather,  corner_cut,   cover_flap,        letter_height,
    letter_lines, ties,         closed_height,   closed_width, closed_thickness};
constexpr std::array box_figures{box_inner_height, box_inner_width, box_inner_depth, box_board_thickness,
                                 box_height,       box_width,       box_depth};

bool is_piece_of_the_whole(FigureId id) {
  return id == closed_height || id == closed_width || id == closed_thickness;
}

// In two columns, read down: a page holds what belongs together.
Table figures_of(BookSpec const& book, Figures const& figures, std::span<FigureId const> ids) {
  std::vector<std::pair<std::string, std::string>> all;
  for (FigureId const id : ids) {
    FigureRow const& row = figure_row(id);
    bool const there = is_piece_of_the_whole(id) ? book.has(Part::text_block) : book.has(row.part);
    if (!there || !figures.has(id) || figures[id].value == 0) continue;
    bool const length = row.unit == Unit::mm && figures[id].value < 10'000;
    std::string words(row.words);
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
      words.front() = static_cast<char>(words.front() - 'a' + 'A');
    all.emplace_back(std::move(words),
                     length ? mm_words(figures[id].value) : figure_words(id, figures[id].value));
  }
  Table table{{{"Measure"}, {"", Align::right}, {"Measure"}, {"", Align::right}}, {}};
  std::size_t const half = (all.size() + 1) / 2;
  for (std::size_t i = 0; i < half; ++i) {
    bool const two = i + half < all.size();
    table.add(
        {all[i].first, all[i].second, two ? all[i + half].first : " ", two ? all[i + half].second : " "});
  }
  return table;
}

std::string materials_in(JobSheet const& sheet, std::initializer_list<Role> roles) {
  std::vector<std::string> names;
  for (Role const role : roles) {
    Chosen const& chosen = sheet.book.chosen(role);
    if (chosen.origin != Origin::none && sheet.book.has(role_row(role).part))
      names.push_back(material_name(sheet.seen.agreed.materials, chosen.material));
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

// The ways of some parts, and what they are made of.
void add_ways(KeyValues& values, JobSheet const& sheet, std::initializer_list<std::string_view> parts) {
  for (auto& row : ways_in_words(sheet.book))
    if (std::ranges::find(parts, row.first) != parts.end()) values.rows.push_back(std::move(row));
}
void add_material(KeyValues& values, JobSheet const& sheet, std::string what,
                  std::initializer_list<Role> roles) {
  if (std::string names = materials_in(sheet, roles); !names.empty())
    values.rows.emplace_back(std::move(what), std::move(names));
}

std::string_view station_words(BookSpec const& book, StationKind kind) {
  if (kind == StationKind::kettle) return "kettle stitch";
  if (kind == StationKind::hole) return "station";
  return book.ways.has(Way::tapes) ? "tape" : "cord";
}

// A row for each station, its holes from the head: as it is pierced, and once it is trimmed.
Table station_table(BookSpec const& book, Figures const& figures) {
  double const trim = figures.value_or(head_tail_trim, 0);
  Table table{{{"Station"},
               {"What"},
               {trim > 0 ? "Holes from the head, untrimmed, mm" : "Holes from the head, mm", Align::right}},
              {}};
  if (trim > 0) table.columns.push_back({"Trimmed, mm", Align::right});
  int number = 0;
  for (Station const& station : stations_of(book, figures)) {
    std::vector<std::string> before, after;
    for (double const at : holes_of({station}, figures)) {
      before.push_back(tenths(at + trim));
      after.push_back(tenths(at));
    }
    std::vector<std::string> cells{station.kind == StationKind::kettle ? "K" : std::to_string(++number),
                                   std::string(station_words(book, station.kind)), listed(before)};
    if (trim > 0) cells.push_back(listed(after));
    table.add(std::move(cells));
  }
  return table;
}

void add_templates(Document& document, std::vector<Drawing> drawings, std::string_view how) {
  for (std::size_t i = 0; i < drawings.size(); ++i) {
    document.add(PageBreak{});
    document.heading(drawings[i].title, 2);
    document.paragraph(
        i == 0
            ? std::string(how)
            : "Cut off at the line of the join, and lay the tab under the piece before, letter to letter.");
    document.add(std::move(drawings[i]));
  }
}

constexpr std::string_view sewing_how =
    "True size. Cut out, fold along dash and dot, lay it into the fold of a section, head to head, and "
    "pierce at the "
    "crosses. K: kettle stitch; shaded: what is sewn on; dashes: where the leaf is trimmed.";
constexpr std::string_view spine_how =
    "True size. Lay it along the back, head to head, and mark the bands; measures run from the head of the "
    "trimmed leaf.";

void add_drawing(Document& document, std::optional<Drawing> drawing, std::string const& which) {
  if (!drawing) return;
  if (!which.empty()) drawing->name += "-" + which.substr(which.rfind(' ') + 1);  // each its own on the page
  document.add(*std::move(drawing));
}

void add_sewing(Document& document, JobSheet const& sheet, BookSpec const& book, Structure const& structure,
                std::string const& which) {
  Figures const& figures = structure.figures;
  document.add(PageBreak{});
  document.heading("Sections and sewing" + which);
  KeyValues values;
  add_ways(values, sheet, {"Text block", "Edges", "Endpapers", "Sewing"});
  add_material(values, sheet, "Text paper", {Role::text_paper, Role::guard_paper});
  add_material(values, sheet, "Endpapers of", {Role::endpaper, Role::joint_leather});
  add_material(values, sheet, "Thread", {Role::thread, Role::thread_wax});
  add_material(values, sheet, "Sewn on", {Role::cord, Role::tape});
  document.add(std::move(values));
  document.add(figures_of(book, figures, block_figures));
  if (book.has(Part::sewing)) {
    document.heading("Sewing" + which, 2);
    document.add(figures_of(book, figures, sewing_figures));
    document.add(station_table(book, figures));
  }
  add_templates(document, sewing_templates(book, structure, sheet.room()), sewing_how);
}

void add_spine_and_boards(Document& document, JobSheet const& sheet, BookSpec const& book,
                          Structure const& structure, std::string const& which) {
  Figures const& figures = structure.figures;
  Table spine = figures_of(book, figures, spine_figures);
  if (!spine.rows.empty()) {
    document.add(PageBreak{});
    document.heading("Spine" + which);
    KeyValues ways;
    add_ways(ways, sheet, {"Spine", "Endbands"});
    document.add(std::move(ways));
    std::size_t const rows = spine.rows.size();
    document.add(std::move(spine));
    add_drawing(document, draw_spine(book, structure, paper_beside(sheet, rows + 3)), which);
    add_templates(document, spine_templates(book, structure, sheet.room()), spine_how);
  }
  Table boards = figures_of(book, figures, board_figures);
  if (boards.rows.empty()) return;
  document.add(PageBreak{});
  document.heading((book.has(Part::boards) ? "Boards and covering" : "Covering") + which);
  KeyValues ways;
  add_ways(ways, sheet, {"Boards", "Cover", "Lettering"});
  add_material(ways, sheet, "Covered in", {Role::leather, Role::sides, Role::corner_covering});
  document.add(std::move(ways));
  std::size_t const boards_rows = boards.rows.size();
  document.add(std::move(boards));
  add_drawing(document, draw_cover(book, structure, paper_beside(sheet, boards_rows + 4)), which);
}

}  // namespace

void add_making(Document& document, JobSheet const& sheet) {
  for (std::size_t i = 0; i < sheet.volumes.size(); ++i) {
    BookSpec const book = volume_of(sheet.book, i);
    Structure const& structure = sheet.volumes[i];
    std::string const which = sheet.volumes.size() > 1 ? fmt::format(", volume {}", i + 1) : "";
    if (book.has(Part::text_block)) add_sewing(document, sheet, book, structure, which);
    if (book.has(Part::spine) || book.has(Part::cover))
      add_spine_and_boards(document, sheet, book, structure, which);
  }
  Table box = figures_of(sheet.book, sheet.volumes.front().figures, box_figures);
  if (box.rows.empty()) return;
  document.add(PageBreak{});
  document.heading("Box");
  KeyValues ways;
  add_ways(ways, sheet, {"Box"});
  document.add(std::move(ways));
  document.add(std::move(box));
}

}  // namespace endband::cli
