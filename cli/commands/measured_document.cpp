#include "cli/commands/measured.h"
#include "cli/words/book_words.h"
#include "cli/words/making_words.h"
#include "cli/words/values.h"
#include "engine/book/copies.h"
#include "engine/book/rule.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace endband::cli {
namespace {

std::string from_where(FigureId id, Figure const& figure, Ways ways) {
  if (figure.origin != Origin::computed) return std::string(origin_name(figure.origin));
  Rule const* const rule = rule_of(id, ways);
  return rule == nullptr ? std::string("computed") : std::string(rule->formula);
}

bool same(Figure const& a, Figure const& b) { return a.origin == b.origin && a.value == b.value; }

// What stands for a part that is not there, so that others can be added up, is nothing to measure.
bool stands_for_absent(BookSpec const& book, Figure const& figure, Part part) {
  bool const chosen =
      figure.origin == Origin::said || figure.origin == Origin::model || figure.origin == Origin::workshop;
  return !book.has(part) && !chosen;
}

// One table, so that the columns of all parts stand under each other. Of a later volume only what is not as
// in the first.
Table figure_table(Figures const& figures, BookSpec const& book, Figures const* first) {
  Table table{{{"Figure"}, {""}, {"Value", Align::right}, {"From"}, {"Name", Align::left, 1}}, {}};
  for (std::size_t part = 0; part < part_count; ++part) {
    bool named = false;
    for (std::size_t i = 0; i < figure_count; ++i) {
      auto const id = static_cast<FigureId>(i);
      FigureRow const& row = figure_row(id);
      if (static_cast<std::size_t>(row.part) != part || !figures.has(id)) continue;
      if (stands_for_absent(book, figures[id], row.part)) continue;
      if (first != nullptr && same(figures[id], (*first)[id])) continue;
      if (!named) table.add({std::string(part_name(row.part)), "", "", "", ""});
      named = true;
      table.add({"  " + std::string(row.words), std::string(row.symbol), figure_words(id, figures[id].value),
                 from_where(id, figures[id], book.ways), std::string(row.name)});
    }
  }
  return table;
}

Table material_table(Measured const& view) {
  Table table{{{"Key"}, {"Material"}, {"Name", Align::left, 1}, {"From", Align::left, 2}}, {}};
  for (std::size_t i = 0; i < role_count; ++i) {
    Chosen const& chosen = view.book.materials[i];
    if (chosen.origin == Origin::none) continue;
    Material const* const material = material_of(view.materials, chosen.material);
    table.add({std::string(role_row(static_cast<Role>(i)).key), material->code, material->name,
               std::string(origin_name(chosen.origin))});
  }
  return table;
}

// The pieces under the names of what they are cut from, in the order in which a material is first needed. The
// numbers are those in the drawings.
Table piece_table(Measured const& view) {
  Table table{{{"No.", Align::right},
               {"Piece"},
               {"Count", Align::right},
               {"Height mm", Align::decimal},
               {"Width mm", Align::decimal},
               {"Grain"},
               {"How it is cut", Align::left, 1}},
              {}};
  std::vector<Piece> const& pieces = view.whole.pieces;
  std::vector<MaterialId> told;
  for (Piece const& first : pieces) {
    if (std::find(told.begin(), told.end(), first.material) != told.end()) continue;
    told.push_back(first.material);
    table.add({"", material_name(view.materials, first.material), "", "", "", "", ""});
    for (std::size_t i = 0; i < pieces.size(); ++i)
      if (Piece const& piece = pieces[i]; piece.material == first.material)
        table.add({std::to_string(i + 1), "  " + std::string(item_words(piece.item)),
                   std::to_string(piece.count), tenths_mm(piece.height), tenths_mm(piece.width),
                   std::string(grain_words(piece.grain)), cutting_words(piece)});
  }
  return table;
}

std::string size_words(Structure const& structure) {
  return fmt::format("Closed {} x {} x {} mm, {}.", tenths_mm(structure.closed_height),
                     tenths_mm(structure.closed_width), tenths_mm(structure.closed_thickness),
                     figure_words(FigureId::book_mass, static_cast<double>(structure.mass.n) / 1000));
}

bool same(Warning const& a, Warning const& b) {
  return std::tie(a.code, a.is, a.least, a.most, a.material) ==
         std::tie(b.code, b.is, b.least, b.most, b.material);
}

// "Volume 2: ", where not all volumes are warned of the same.
std::string of_which(Warning const& warning, std::span<Structure const> volumes) {
  std::vector<std::string> warned;
  for (std::size_t i = 0; i < volumes.size(); ++i)
    if (std::any_of(volumes[i].warnings.begin(), volumes[i].warnings.end(),
                    [&](Warning const& each) { return same(each, warning); }))
      warned.push_back(std::to_string(i + 1));
  if (warned.empty() || warned.size() == volumes.size()) return "";
  return fmt::format("Volume{} {}: ", warned.size() == 1 ? "" : "s", listed(warned));
}

void add_warnings(Document& document, Measured const& view) {
  for (Warning const& warning : view.whole.warnings)
    document.notice(NoticeKind::warning,
                    of_which(warning, view.volumes) + warning_words(warning, view.materials));
}

void add_volumes(Document& document, Measured const& view) {
  for (std::size_t i = 1; i < view.volumes.size(); ++i) {
    BookSpec const book = volume_of(view.book, i);
    document.heading(fmt::format("Volume {}{}{}", i + 1, book.title.empty() ? "" : ": ", book.title), 2);
    document.paragraph(size_words(view.volumes[i]) + " What is not told here is as in the first.");
    document.add(figure_table(view.volumes[i].figures, book, &view.first().figures));
  }
}

// The list of pieces says what the drawings of pieces would.
void add_drawings(Document& document, Measured const& view) {
  document.heading("Drawings", 2);
  for (Drawing const& drawing : view.drawings)
    if (drawing.name != "box" && drawing.name != "pieces") document.add(drawing);
  if (!view.folder) return;
  std::vector<std::string> names;
  for (Drawing const& drawing : view.drawings) names.push_back(drawing_file(drawing));
  if (names.empty())
    document.paragraph("There is nothing to draw.");
  else
    document.paragraph(fmt::format("{} {} in {}.{}", view.dry_run ? "Would write" : "Wrote", listed(names),
                                   *view.folder, view.dry_run ? " Nothing is saved." : ""));
}

}  // namespace

std::string drawing_file(Drawing const& drawing) { return drawing.name + ".svg"; }

Document to_document(Measured const& view) {
  Document document;
  document.heading(view.book.title.empty() ? std::string("A book without a title") : view.book.title);
  document.paragraph(size_words(view.first()));
  document.add(KeyValues{ways_in_words(view.book)});
  add_warnings(document, view);
  document.heading("Figures", 2).add(figure_table(view.first().figures, view.book, nullptr));
  add_volumes(document, view);
  document.heading("Materials", 2).add(material_table(view));
  document.heading(view.book.copies > 1 ? fmt::format("Pieces to cut, for {} copies", view.book.copies)
                                        : std::string("Pieces to cut"),
                   2);
  document.add(piece_table(view));
  if (!view.drawings.empty() || view.folder) add_drawings(document, view);
  document.next("endband quote make with the same file");
  return document;
}

}  // namespace endband::cli
