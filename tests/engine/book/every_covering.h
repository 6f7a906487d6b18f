// A workshop that has something for every way of covering a book, and books described in a few lines.
#pragma once

#include "engine/book/structure.h"
#include "tests/engine/book/layers.h"

#include <string>
#include <string_view>

namespace endband::tests {

inline Material& on_a_roll(fixtures::Shelf& shelf, std::string_view code, MaterialKind kind, double caliper,
                           int grams) {
  Material& material = shelf.by_length(code, kind);
  material.properties.width = fixtures::mm(1400);
  material.properties.caliper = fixtures::thick(caliper);
  material.properties.grammage_mg = grams * 1000;
  return material;
}

inline Catalogue catalogue_of_every_covering() {
  using Kind = MaterialKind;
  using fixtures::mm;
  fixtures::Shelf shelf;
  fixtures::stock_paper_and_boards(shelf);
  fixtures::stock_thread_and_cord(shelf);
  fixtures::stock_liquids(shelf);
  fixtures::stock_fittings(shelf);
  on_a_roll(shelf, "buckram", Kind::cloth, 0.4, 280);
  on_a_roll(shelf, "mull", Kind::linen, 0.2, 60);
  shelf.sheet("marbled", Kind::paper, 0.15, {mm(500), mm(700)}).properties.grammage_mg = 110'000;
  shelf.sheet("kraft", Kind::paper, 0.1, {mm(700), mm(1000)}).properties.grammage_mg = 80'000;
  shelf.skin("calf", 0.8);
  Material& tape = shelf.by_length("tape-12", Kind::cord);
  tape.properties.width = mm(12);
  tape.properties.caliper = fixtures::thick(0.4);
  tape.properties.grammage_mg = 200'000;
  shelf.by_length("made-endband", Kind::endband).properties.width = mm(12);
  return shelf.finish();
}

inline constexpr std::string_view habits_of_every_covering =
    "[text]\npaper = \"paper-cream\"\n"
    "[endpapers]\npaper = \"paper-end\"\n"
    "[sewing]\nthread = \"thread-18-3\"\ncord = \"cord-5\"\ntape = \"tape-12\"\n"
    "[spine]\nadhesive = \"pva\"\nlining = \"linen\"\npaper = \"paper-spine\"\nmull = \"mull\"\n"
    "hollow = \"kraft\"\nstiffener = \"card\"\n"
    "[false_bands]\nmaterial = \"card\"\n"
    "[boards]\nmaterial = \"board-3\"\n"
    "[endbands]\ncore = \"core-2\"\nsilk = [\"silk-red\", \"silk-white\"]\nmade = \"made-endband\"\n"
    "[guards]\npaper = \"card\"\n"
    "[tie]\nmaterial = \"goat\"\n"
    "[registers]\nribbon = \"ribbon\"\n"
    "[finishing]\nleaf = \"leaf-gold\"\nsize = \"size\"\n"
    "[corners]\nmaterial = \"corner\"\nadhesive = \"epoxy\"\n"
    "[clasps]\nmaterial = \"clasp\"\n[rivets]\nmaterial = \"rivet\"\n"
    "[strap]\nbuckle = \"buckle\"\n[stone]\nmaterial = \"stone\"\nadhesive = \"epoxy\"\n"
    "[edges]\ncolour = \"dye\"\n"
    "[box]\nboard = \"board-3\"\ncloth = \"buckram\"\nlining = \"marbled\"\nadhesive = \"pva\"\n"
    "[packing]\ncarton = \"carton\"\npadding = \"padding\"\n";

struct Described {
  Catalogue catalogue = catalogue_of_every_covering();

  // `covering` is the code of what covers the book: the cover's first material.
  Read<BookSpec> read(std::string_view text, std::string_view covering, std::string_view model = {}) const {
    std::string const workshop = "endband = 1\n" + std::string(habits_of_every_covering) +
                                 "[cover]\nmaterial = \"" + std::string(covering) +
                                 "\"\npaste = \"paste\"\nsides = \"marbled\"\ndressing = \"dressing\"\n";
    BookText const book = layers::text_of(text);
    BookText const habits = layers::text_of(workshop, "workshop");
    std::vector<Layer> given{{&book, Origin::said}, {&habits, Origin::workshop}};
    BookText const start = model.empty() ? BookText{} : *model_text(model);
    if (!model.empty()) given.insert(given.begin() + 1, Layer{&start, Origin::model});
    return resolve(given, catalogue);
  }
  BookSpec spec(std::string_view binding, std::string_view said, std::string_view covering = "goat",
                std::string_view size = "height = \"240 mm\"\nwidth = \"160 mm\"\npages = 320\n") const {
    std::string const text =
        "endband = 1\nbinding = \"" + std::string(binding) + "\"\n" + std::string(size) + std::string(said);
    auto found = read(text, covering);
    INFO(text);
    INFO(layers::faults_of(found));
    REQUIRE(found);
    return *std::move(found);
  }
  Structure made(std::string_view binding, std::string_view said, std::string_view covering = "goat") const {
    return structure(spec(binding, said, covering), catalogue);
  }
};

}  // namespace endband::tests
