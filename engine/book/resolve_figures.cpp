// The figures that are given, each with its origin, and those without which no book can be computed.
#include "engine/book/resolve.h"

#include <algorithm>

namespace endband {
namespace {

void missing(Resolving& to, std::size_t index, std::string expected) {
  to.fault(FaultCode::missing_key, {to.layers.source(), 0, 0, std::string(path_of(index))}, {},
           std::move(expected));
}

bool known(Resolving const& to, std::size_t index) { return static_cast<bool>(to.layers[index]); }

void check_size(Resolving& to) {
  if (!known(to, key("height"))) missing(to, key("height"), "height = \"250 mm\"");
  if (!known(to, key("width"))) missing(to, key("width"), "width = \"180 mm\"");
  if (to.layers.flag(key("text.given"))) {
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

    if (!known(to, key("text.thickness")))
  if (!to.parts.has(Part::text_block)) return check_box_alone(to);
  check_no_other_book_in_the_box(to);
      missing(to, key("text.thickness"), "thickness = \"31 mm\", measured, in [text]");
    if (!known(to, key("text.sections")))
      missing(to, key("text.sections"), "sections = 24, counted, in [text]");
    if (!known(to, key("text.density")))
      missing(to, key("text.density"), "density = \"700 kg/m3\" in [text]");
  } else if (!known(to, key("pages")) && !known(to, key("text.sheets")) && !known(to, key("text.sections"))) {
    missing(to, key("pages"), "pages = 300, or sheets or sections in [text]");
  }
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
  if (!to.parts.has(figure_row(id).part)) return false;
  bool const given = to.layers.flag(key("text.given"));
  if (index == key("text.sections")) return given;
  if (index == key("pages")) return !given;
  return true;
}

void resolve_lettering(Resolving& to) {
  if (!to.parts.has(Part::lettering)) return;
  Hit words = to.layers[key("lettering.words")];
  if (!words) words = to.layers[key("title")];
  if (!words) {
    missing(to, key("lettering.words"), "words = \"...\" in [lettering], or a title");
    return;
  }
  to.spec.letters = std::get<std::string>(words.entry->value);
  to.spec.given.set(FigureId::letters, static_cast<double>(letters_of(to.spec.letters)), words.origin);
  Hit const& kind = to.layers[key("lettering.kind")];
  bool const leaf = kind && std::get<std::string>(kind.entry->value) == "leaf";
  to.spec.lettering_kind = leaf ? LineKind::leaf : LineKind::blind;
  if (!leaf) to.spec.given.set(FigureId::letter_layers, 0, kind ? kind.origin : Origin::practice);
}

}  // namespace

std::int64_t letters_of(std::string_view words) {
  // Blanks are not lettered; of a letter of several bytes the first is counted.
  return std::count_if(words.begin(), words.end(),
                       [](char c) { return c != ' ' && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
}

void resolve_figures(Resolving& to) {
  check_size(to);
  for (std::size_t i = 0; i < key_count; ++i) {
    BookKey const& row = key_table::rows[i];
    Hit const& hit = to.layers[i];
    if (!row.figure || !hit || !applies(to, i, *row.figure)) continue;
    to.spec.given.set(*row.figure, number_of(row.row.type, hit.entry->value), hit.origin);
  }
  // What a customer's block holds is counted, not made up of sheets.
  if (Hit const& pages = to.layers[key("pages")]; pages && to.layers.flag(key("text.given")))
    to.spec.given.set(FigureId::pages, number_of(ValueType::count, pages.entry->value), pages.origin);
  sheets_of_sections(to);
  resolve_lettering(to);
}

}  // namespace endband
