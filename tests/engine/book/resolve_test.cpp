// Layers to one book: which value stands, where it comes from, which parts and materials there are.
#include "engine/book/structure.h"
#include "tests/engine/book/every_covering.h"
#include "tests/engine/book/layers.h"

#include <algorithm>
#include <fstream>
#include <sstream>

using namespace endband;
using layers::book;
using layers::code_of;
using layers::Four;
using F = FigureId;

TEST_CASE("six lines are enough for a book") {
  BookSpec const spec =
      book("title = \"Songs\"\nheight = \"210 mm\"\nwidth = \"148 mm\"\npages = 240\nleather = \"bridle\"\n");
  CHECK(spec.title == "Songs");
  CHECK(spec.binding == "raised-cords");
  CHECK(spec.given.value(F::leaf_height) == 210);
  CHECK(spec.given.value(F::pages_wanted) == 240);
  CHECK(code_of(spec, Role::leather) == "bridle");
  CHECK(spec.has(Part::endbands));
  CHECK(spec.has(Part::packing));
  CHECK_FALSE(spec.has(Part::registers));
  CHECK_FALSE(spec.has(Part::extras));

  Structure const made = structure(spec, fixtures::sample_catalogue());
  CHECK(made.figures.value(F::sections) == 15);
  CHECK(made.figures.value(F::shoulder) == 3);  // by the boards
  CHECK(made.mass.n > 0);
}

TEST_CASE("the stronger layer's value stands, and says where it comes from") {
  BookSpec const spec = book("height = \"300 mm\"\n[boards]\nsquare = \"5 mm\"\n");
  auto const is = [&](F id, double value, Origin origin) {
    CAPTURE(figure_row(id).name);
    CHECK(spec.given[id].value == doctest::Approx(value));
    CHECK(origin_name(spec.given[id].origin) == origin_name(origin));
  };
  is(F::leaf_height, 300, Origin::said);
  is(F::leaf_width, 148, Origin::model);
  is(F::square, 5, Origin::said);
  is(F::supports, 5, Origin::model);  // the workshop's 4 is weaker
  is(F::swell_kept, 0.5, Origin::practice);
  is(F::compression, 0.97, Origin::practice);
  is(F::needle_length, 1200, Origin::practice);
  is(F::block_given, 0, Origin::practice);
  CHECK(spec.chosen(Role::thread).origin == Origin::workshop);
  CHECK(spec.chosen(Role::thread).where.source == "workshop");
  CHECK(spec.given[F::board_thickness].origin == Origin::none);  // the calculator reads it from the board
  CHECK(spec.given[F::shoulder].origin == Origin::none);
}

TEST_CASE("values of every type come in the unit of their figure") {
  BookSpec const spec = book(
      "[sewing]\nthread_thickness = \"0.62 mm\"\n[spine]\nround = \"97.5 deg\"\n[cover]\npared = \"800 um\"\n"
      "stretch = \"2.5 %\"\n[endbands]\npacking = 0.9\n[registers]\ndiagonal = true\n[text]\nthickness = "
      "\"31.5 mm\"\n");
  CHECK(spec.given.value(F::thread_thickness) == doctest::Approx(0.62));
  CHECK(spec.given.value(F::round_angle) == 97.5);
  CHECK(spec.given.value(F::leather_pared) == doctest::Approx(0.8));
  CHECK(spec.given.value(F::leather_stretch) == doctest::Approx(0.025));
  CHECK(spec.given.value(F::silk_packing) == doctest::Approx(0.9));
  CHECK(spec.given.value(F::register_diagonal) == 1);
  CHECK(spec.given.value(F::block_thickness) == 31.5);
}

TEST_CASE("an optional part is there when the description or the model speaks of it") {
  CHECK(book("[registers]\n").has(Part::registers));
  CHECK(book("[clasps]\ncount = 1\n").has(Part::clasps));
  CHECK_FALSE(book("").has(Part::clasps));  // the workshop has clasps, but nobody asked
  CHECK_FALSE(book("[finishing]\n").has(Part::lines));
  CHECK(book("[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\ninset = \"8 mm\"\n").has(Part::lines));
  auto const grimoire = Four("endband = 1\ntitle = \"Moon\"\n", "grimoire").resolve();
  REQUIRE(grimoire);
  for (Part const part : {Part::registers, Part::lines, Part::lettering, Part::corners, Part::clasps})
    CHECK(grimoire->has(part));
  CHECK(grimoire->lines.size() == 3);
}

TEST_CASE("figures and materials of an absent part are not given") {
  BookSpec const spec = book("");
  CHECK_FALSE(spec.given.has(F::register_anchor));
  CHECK_FALSE(spec.given.has(F::strap_width));
  CHECK_FALSE(spec.given.has(F::rivets_a_corner));
  CHECK(code_of(spec, Role::ribbon).empty());
  CHECK(code_of(spec, Role::clasp).empty());
  CHECK(code_of(spec, Role::rivet).empty());
  CHECK(code_of(spec, Role::metal_leaf).empty());
}

TEST_CASE("what is left out is absent, whatever the model and the workshop say") {
  auto const bare = Four(
                        "endband = 1\nwithout = [\"clasps\", \"lines\", \"lettering\", \"corners\", \"dye\", "
                        "\"packing\", \"endpapers\"]\n",
                        "grimoire")
                        .resolve();
  REQUIRE(bare);
  for (Part const part :
       {Part::clasps, Part::lines, Part::lettering, Part::corners, Part::packing, Part::endpapers})
    CHECK_FALSE(bare->has(part));
  CHECK(bare->has(Part::registers));
  CHECK(bare->lines.empty());
  CHECK(code_of(*bare, Role::leather_dye).empty());
  CHECK(code_of(*bare, Role::rivet).empty());
  CHECK(code_of(*bare, Role::endpaper).empty());
  CHECK(structure(*bare, fixtures::sample_catalogue()).mass.n > 0);
}

TEST_CASE("a role that nobody names takes the material of another") {
  BookSpec const spec = book("[strap]\n");
  CHECK(code_of(spec, Role::lacing_adhesive) == "pva");
  CHECK(code_of(spec, Role::endband_adhesive) == "pva");
  CHECK(code_of(spec, Role::pastedown_adhesive) == "paste");
  CHECK(code_of(spec, Role::strap_leather) == "goat");
  CHECK(spec.chosen(Role::strap_leather).origin == Origin::workshop);
  CHECK(spec.chosen(Role::strap_leather).where.field == "leather");
  CHECK(code_of(spec, Role::rivet) == "rivet");
  CHECK(code_of(book("[strap]\nleather = \"bridle\"\n"), Role::strap_leather) == "bridle");
}

TEST_CASE("one colour of silk leaves the second role empty") {
  BookSpec const spec = book("[endbands]\nsilk = \"silk-white\"\n");
  CHECK(code_of(spec, Role::endband_silk_1) == "silk-white");
  CHECK(code_of(spec, Role::endband_silk_2).empty());
  CHECK(code_of(book(""), Role::endband_silk_2) == "silk-white");
}

TEST_CASE("metal leaf is asked for where something is laid in it") {
  BookSpec const lettered = book("title = \"O\u00e9 1\"\n[lettering]\nkind = \"leaf\"\n");
  CHECK(code_of(lettered, Role::metal_leaf) == "leaf-gold");
  CHECK(code_of(lettered, Role::leaf_varnish) == "varnish");
  CHECK(lettered.letters == "O\u00e9 1");
  CHECK(lettered.given.value(F::letters) == 3);
  CHECK(lettered.given.value(F::letter_layers) == 1);
  CHECK(lettered.lettering_kind == LineKind::leaf);
  BookSpec const blind = book("[lettering]\nwords = \"AB\"\n");
  CHECK(code_of(blind, Role::metal_leaf).empty());
  CHECK(blind.given.value(F::letter_layers) == 0);
}

TEST_CASE("lists that are said take the place of the model's") {
  auto const spec = Four(
                        "endband = 1\ntitle = \"x\"\n[[lines]]\nkind = \"leaf\"\nlayout = \"length\"\nlength "
                        "= \"345 mm\"\nwidth = \"3 mm\"\n"
                        "count = 2\nlayers = 2\n",
                        "grimoire")
                        .resolve();
  REQUIRE(spec);
  REQUIRE(spec->lines.size() == 1);
  Lines const& lines = spec->lines.front();
  CHECK(lines.kind == LineKind::leaf);
  CHECK(lines.layout == LineLayout::length);
  CHECK(lines.length_mm == 345);
  CHECK(lines.width_mm == 3);
  CHECK(lines.count == 2);
  CHECK(lines.layers == 2);
  CHECK(lines.where.line == 3);
}

TEST_CASE("underlays, extras and outside work come to their lists") {
  BookSpec const spec = book(
      "[[underlays]]\ncard = \"card\"\nheight = \"110 mm\"\nwidth = \"90 mm\"\nlayers = 2\n"
      "[[extra_materials]]\nmaterial = \"card\"\namount = \"2 sheets\"\n"
      "[[extra_work]]\nwords = \"age the edges\"\ntime = \"20/35/60 min\"\n"
      "[[outside]]\nwords = \"a die\"\nprice = \"86.00\"\nlead = \"9 d\"\n"
      "[[outside]]\nwords = \"a box\"\nprice = 40\nat_cost = false\n");
  Catalogue const catalogue = fixtures::sample_catalogue();
  REQUIRE(spec.underlays.size() == 1);
  CHECK(catalogue.at(spec.underlays[0].card).code == "card");
  CHECK(spec.underlays[0].height_mm == 110);
  CHECK(spec.underlays[0].layers == 2);
  CHECK(spec.underlays[0].count == 1);
  CHECK(code_of(spec, Role::underlay_adhesive) == "paste");
  REQUIRE(spec.extra_materials.size() == 1);
  CHECK(spec.extra_materials[0].net == Amount{Dimension::count, 2000});
  REQUIRE(spec.extra_work.size() == 1);
  CHECK(spec.extra_work[0].words == "age the edges");
  CHECK(spec.extra_work[0].likely == Duration{2100});
  REQUIRE(spec.outside.size() == 2);
  CHECK(spec.outside[0].price == "86.00");
  CHECK(spec.outside[0].at_cost);
  CHECK(spec.outside[0].lead == Duration{9 * 86'400});
  CHECK_FALSE(spec.outside[1].at_cost);
  CHECK(spec.has(Part::extras));
}

TEST_CASE("a text block that the customer gives is measured and not folded") {
  BookSpec const spec =
      book("[text]\ngiven = true\nthickness = \"31 mm\"\nsections = 26\ndensity = \"700 kg/m3\"\n");
  CHECK(spec.given.value(F::block_given) == 1);
  CHECK(spec.given.value(F::sections) == 26);
  CHECK(spec.given.value(F::block_thickness) == 31);
  CHECK_FALSE(spec.given.has(F::pages_wanted));  // the model's pages are of another book
  CHECK_FALSE(spec.given.has(F::sheets));
  CHECK_FALSE(spec.given.has(F::folds));
  CHECK(code_of(spec, Role::text_paper).empty());
  CHECK(code_of(spec, Role::endpaper) == "paper-end");
  CHECK(structure(spec, fixtures::sample_catalogue()).figures.value(F::block_mass) > 0);
  CHECK(book("pages = 208\n[text]\ngiven = true\nthickness = \"31 mm\"\nsections = 26\ndensity = \"700 "
             "kg/m3\"\n")
            .given.value(F::pages) == 208);
}

TEST_CASE("sheets or sections may stand for pages") {
  CHECK_FALSE(book("[text]\nsheets = 75\n").given.has(F::pages_wanted));
  CHECK(book("[text]\nsheets = 75\n").given.value(F::sheets) == 75);
  BookSpec const spec = book("[text]\nsections = 24\nsheets_per_section = 4\n");
  CHECK(spec.given.value(F::sheets) == 96);
  CHECK(spec.given[F::sheets].origin == Origin::said);
  CHECK(book("pages = 300\n[text]\nsheets = 75\nsections = 19\n").given.value(F::sheets) == 75);
}

TEST_CASE("what the customer supplies is known by its id") {
  BookSpec const spec = book(
      "customer_supplies = [\"goat\", \"card\"]\n[[extra_materials]]\nmaterial = \"card\"\namount = \"1 "
      "sheet\"\n");
  Catalogue const catalogue = fixtures::sample_catalogue();
  REQUIRE(spec.customer_supplies.size() == 2);
  CHECK(catalogue.at(spec.customer_supplies[0]).code == "goat");
}

TEST_CASE("the codes that are named are those that the book takes") {
  auto const codes = Four("endband = 1\nleather = \"calf\"\n").codes();
  auto const has = [&](std::string_view code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
  };
  CHECK(has("calf"));
  CHECK_FALSE(has("goat"));  // the workshop's leather is not taken
  CHECK(has("thread-18-3"));
  CHECK(has("silk-red"));
  CHECK(has("silk-white"));
  CHECK_FALSE(has("ribbon"));
  CHECK_FALSE(has("leaf-gold"));
  CHECK(std::is_sorted(codes.begin(), codes.end()));

  auto const more = Four(
                        "endband = 1\nwithout = [\"endbands\", \"dye\"]\ncustomer_supplies = "
                        "\"skin\"\n[[underlays]]\ncard = \"card\"\n"
                        "[[extra_materials]]\nmaterial = \"bag\"\namount = \"1 piece\"\n[strap]\n")
                        .codes();
  std::string all;
  for (std::string const& code : more) all += code + ' ';
  CHECK(
      all ==
      "bag board-3 buckle card carton cord-5 goat linen padding paper-cream paper-end paper-spine paste pva "
      "rivet skin thread-18-3 wax ");
}

TEST_CASE("the descriptions of the demo are read whole, from six lines to a hundred and more") {
  struct Book {
    std::string_view name;
    std::size_t values;  // that it says, headings not counted
  };
  for (Book const& book : {Book{"ferry_songs", 6}, Book{"pocket_herbal", 95}, Book{"hollow_tides", 126}}) {
    CAPTURE(book.name);
    std::stringstream text;
    text << std::ifstream(std::string(ENDBAND_SOURCE_DIR) + "/sample_data/books/" + std::string(book.name) +
                          ".toml")
                .rdbuf();
    BookText const read = layers::text_of(text.str());
    auto const said = std::count_if(read.entries.begin(), read.entries.end(), [](Entry const& entry) {
      return key_named(description_keys(), entry.key) != nullptr;
    });
    CHECK(static_cast<std::size_t>(said) == book.values);
  }
}

TEST_CASE("every model is a whole book with the habits of a workshop, and names no material") {
  tests::Described const workshop;
  for (Model const& model : models()) {
    CAPTURE(model.name);
    auto const text = model_text(model.name);
    REQUIRE(text);
    for (Entry const& entry : text->entries) {
      KeyRow const* const row = key_named(description_keys(), entry.key);
      bool const names = row != nullptr && row->type == ValueType::code;
      CHECK_FALSE(names);
    }
    auto const spec = workshop.read("endband = 1\ntitle = \"x\"\n", "goat", model.name);
    INFO(layers::faults_of(spec));
    CHECK(spec);
    if (spec) CHECK(structure(*spec, workshop.catalogue).mass.n > 0);
  }
  auto const unknown = model_text("raised-cord");
  REQUIRE(!unknown);
  CHECK(unknown.error().front().near == std::vector<std::string>{"raised-cords"});
}
