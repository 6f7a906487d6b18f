// The figures that are given, each with its origin, and those without which no book can be computed.
#include "engine/book/resolve.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace endband {
namespace {

void missing(Resolving& to, std::size_t index, std::string expected) {
  to.fault(FaultCode::missing_key, {to.layers.source(), 0, 0, std::string(path_of(index))}, {},
           std::move(expected));
}

bool known(Resolving const& to, std::size_t index) { return static_cast<bool>(to.layers[index]); }

constexpr std::array size_of_a_boxed_book{
    std::pair{key("box.book_height"),
              std::string_view("book_height = \"258 mm\", of the closed book, in [box]")},
    std::pair{key("box.book_width"),
              std::string_view("book_width = \"190 mm\", of the closed book, in [box]")},
    std::pair{key("box.book_thickness"),
              std::string_view("book_thickness = \"40 mm\", of the closed book, in [box]")},
};

// A box alone is made to the book as it was measured; beside a book that is described its size follows.
void check_size_of_boxed_book(Resolving& to) {
  for (auto const& [index, expected] : size_of_a_boxed_book)
    if (!known(to, index)) missing(to, index, std::string(expected));
}

// What is said of the book's own parts would come to nothing.
void check_box_alone(Resolving& to) {
  check_size_of_boxed_book(to);
  constexpr std::array parts{Part::text_block, Part::sewing, Part::endpapers,
                             Part::spine,      Part::boards, Part::cover};
  for (std::size_t i = 0; i < key_count; ++i) {
    BookKey const& row = key_table::rows[i];
    Hit const& hit = to.layers[i];
    if (!hit || hit.origin != Origin::said || (!row.figure && !row.role)) continue;
    Part const part = row.figure ? figure_row(*row.figure).part : role_row(*row.role).part;
    if (std::find(parts.begin(), parts.end(), part) != parts.end())
      to.fault(FaultCode::contradiction, hit.entry->where, value_text(row.row.type, hit.entry->value),
               "no such key: a box alone is made to box.book_height, book_width and book_thickness");
  }
}

void check_no_other_book_in_the_box(Resolving& to) {
  for (std::size_t const index :
       {key("box.book_height"), key("box.book_width"), key("box.book_thickness"), key("box.book_mass")})
    if (Hit const& hit = to.layers[index])
      to.fault(FaultCode::contradiction, hit.entry->where,
               value_text(key_table::rows[index].row.type, hit.entry->value),
               "no such key: the box is made to the book that is described, or binding = \"box\"");
}

void check_size(Resolving& to) {
  if (!to.parts.has(Part::text_block)) return check_box_alone(to);
  check_no_other_book_in_the_box(to);
  if (!known(to, key("height"))) missing(to, key("height"), "height = \"250 mm\"");
  if (!known(to, key("width"))) missing(to, key("width"), "width = \"180 mm\"");
  if (to.layers.flag(key("text.given"))) {
    if (!known(to, key("text.thickness")))
      missing(to, key("text.thickness"), "thickness = \"31 mm\", measured, in [text]");
    if (!known(to, key("text.sections")) && !to.parts.is(Way::pamphlet))
      missing(to, key("text.sections"), "sections = 24, counted, in [text]");
    if (!known(to, key("text.density")))
      missing(to, key("text.density"), "density = \"700 kg/m3\" in [text]");
  } else if (!known(to, key("pages")) && !known(to, key("text.sheets")) && !known(to, key("text.sections")) &&
             !volumes_say_their_pages(to.layers)) {
    missing(to, key("pages"), "pages = 300, or sheets or sections in [text]");
  }
}

// Two leaves of different folios are pasted together: there must be two folios.
void check_made_endpapers(Resolving& to) {
  constexpr FigureId folios = FigureId::endpapers_each_end;
  if (!to.parts.has(Part::endpapers) || !to.parts.is(Way::made) || to.spec.given.value(folios) >= 2) return;
  Hit const& hit = to.layers[key("endpapers.each_end")];
  if (hit.origin == Origin::said)
    to.fault(FaultCode::contradiction, hit.entry->where, value_text(ValueType::count, hit.entry->value),
             "2 or more: made endpapers are two, pasted to each other");
  else
    to.spec.given.set(folios, 2, Origin::practice);
}

void check_guards(Resolving& to) {
  if (!to.parts.has(Part::guards)) return;
  if (!known(to, key("guards.mounted")) && !known(to, key("guards.each_leaf")))
    missing(to, key("guards.mounted"), "mounted = \"0.5 mm\", what is mounted on a leaf, in [guards]");
  if (to.layers.flag(key("text.given")) && !known(to, key("pages")))
    missing(to, key("pages"), "pages = 120, counted: guards go to every leaf");
}

// Sections of a block that is folded here are made of whole sheets.
void sheets_of_sections(Resolving& to) {
  Hit const& sections = to.layers[key("text.sections")];
  Hit const& in_section = to.layers[key("text.sheets_per_section")];
  bool const decided =
      to.layers.flag(key("text.given")) || known(to, key("text.sheets")) || known(to, key("pages"));
  if (decided || !sections || !in_section) return;
  double const count = number_of(ValueType::count, sections.entry->value) *
                       number_of(ValueType::count, in_section.entry->value);
  to.spec.given.set(FigureId::sheets, count, sections.origin);
  to.spec.given.set(FigureId::sections, number_of(ValueType::count, sections.entry->value), sections.origin);
}

// Does this figure belong to the book as it is? Practice knows the corners of books that have none.
bool applies(Resolving const& to, std::size_t index, FigureId id) {
  // Endbands are sewn with needles too, on a block that comes sewn.
  if (id == FigureId::needle_length || id == FigureId::needle_waste)
    return to.parts.has(Part::sewing) || to.parts.has(Part::endbands);
  // A block whose sewing is kept has its supports, and boards are laced on by their slips.
  if (id == FigureId::supports || id == FigureId::slip_length) return to.parts.has(Part::text_block);
  if (!has_use(index, to.spec.ways, to.layers[index].origin)) return false;
  // A wrapper stands beyond the leaves too.
  if (id == FigureId::square) return to.parts.has(Part::cover);
  if (!to.parts.has(figure_row(id).part)) return false;
  bool const given = to.layers.flag(key("text.given"));
  if (index == key("text.sections")) return given;
  if (index == key("pages")) return !given;
  return true;
}

}  // namespace

void resolve_figures(Resolving& to) {
  check_size(to);
  for (std::size_t i = 0; i < key_count; ++i) {
    BookKey const& row = key_table::rows[i];
    Hit const& hit = to.layers[i];
    if (!row.figure || !hit || !applies(to, i, *row.figure)) continue;
    to.spec.given.set(*row.figure, number_of(row.row.type, hit.entry->value), hit.origin);
  }
  // What a customer's block holds is counted, not made up of sheets.
  if (Hit const& pages = to.layers[key("pages")]; pages && to.layers.flag(key("text.given"))) {
    double const counted = number_of(ValueType::count, pages.entry->value);
    to.spec.given.set(FigureId::pages, counted, pages.origin);
    to.spec.given.set(FigureId::leaves, std::ceil(counted / 2), pages.origin);
  }
  sheets_of_sections(to);
  check_made_endpapers(to);
  check_guards(to);
}

}  // namespace endband
