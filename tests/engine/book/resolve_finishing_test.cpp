// What resolve makes of endbands, edges, lettering, leaf, insets and furniture, and what it refuses.
#include "engine/book/structure.h"
#include "tests/engine/book/layers.h"

using namespace endband;
using layers::book;
using layers::faults_of;
using layers::Four;

namespace {

bool refuses(std::string_view said, std::string_view model, std::string_view brief) {
  std::string const told = faults_of(Four("endband = 1\n" + std::string(said), model).resolve());
  INFO(told);
  return told.find(brief) != std::string::npos;
}

}  // namespace

TEST_CASE("a pattern is of the silks that are named, and of all of them") {
  CHECK(book("[endbands]\npattern = [\"silk-white\", \"silk-red\", \"silk-red\"]\n").silk_pattern.size() ==
        3);
  auto const spec = Four(
                        "endband = 1\n[endbands]\nsilk = [\"silk-red\", \"silk-white\"]\npattern = "
                        "[\"silk-red\", \"goat\"]\n")
                        .resolve();
  REQUIRE(!spec);
  REQUIRE(spec.error().size() == 2);
  CHECK(layers::brief(spec.error()[0]) == "4:11 contradiction endbands.pattern");
  CHECK(spec.error()[0].found == "goat");
  CHECK(spec.error()[0].expected == "one of endbands.silk: silk-red, silk-white");
  CHECK(spec.error()[1].found == "no wrap of silk-white");
}

TEST_CASE("a habit of other silks than those that are said gives way") {
  std::string const habits(layers::habits);
  std::string const workshop = habits.substr(0, habits.find("[registers]")) +
                               "pattern = [\"silk-red\", \"silk-white\", \"silk-white\"]\n" +
                               habits.substr(habits.find("[registers]"));
  auto const one =
      Four("endband = 1\n[endbands]\nsilk = [\"silk-red\"]\n", "raised-cords", workshop).resolve();
  REQUIRE(one);
  CHECK(one->silk_pattern.empty());
  CHECK(Four("endband = 1\n", "raised-cords", workshop).resolve()->silk_pattern.size() == 3);
}

TEST_CASE("what belongs to another way of making an endband or an edge is told") {
  CHECK(faults_of("[endbands]\nsecond_core = \"core-2\"\n") == "3:15 contradiction endbands.second_core\n");
  CHECK(refuses("[endbands]\nkind = \"stuck-on\"\nmade = \"ribbon\"\ntie_length = \"30 mm\"\n",
                "raised-cords", "5:14 contradiction endbands.tie_length"));
  CHECK(faults_of("[edges]\nkind = \"cut\"\ncount = 1\n") == "4:9 contradiction edges.count\n");
  CHECK(faults_of("[edges]\nkind = \"gilt\"\ncolour = \"dye\"\n") == "4:10 contradiction edges.colour\n");
}

TEST_CASE("gilt edges need leaf and size, unless another workshop gilds them") {
  BookSpec const gilt = book("[edges]\nkind = \"gilt\"\n");
  CHECK(layers::code_of(gilt, Role::metal_leaf) == "leaf-gold");
  CHECK(layers::code_of(gilt, Role::leaf_size) == "size");
  BookSpec const sent = book(
      "[edges]\nkind = \"gilt\"\n[[outside]]\nwords = \"gild the edges\"\nkind = \"edge-gilding\"\nprice = "
      "90\n");
  CHECK(layers::code_of(sent, Role::metal_leaf).empty());
}

TEST_CASE("leaf that is said and that nothing takes is told, a habit of it is not") {
  CHECK(faults_of("[finishing]\nleaf = \"leaf-brass\"\n") == "3:8 contradiction finishing.leaf\n");
  CHECK(
      faults_of("title = \"x\"\n[finishing]\nleaf = \"leaf-brass\"\n[lettering]\nkind = \"leaf\"\n").empty());
  CHECK(faults_of("").empty());
}

TEST_CASE("lines along the bands need bands") {
  CHECK(refuses("[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\nlayout = \"bands\"\n", "tapes",
                "2:1 contradiction lines[1]"));
  CHECK(faults_of("[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\nlayout = \"bands\"\n").empty());
}

TEST_CASE("the words' own breaks make the lines of a title") {
  BookSpec const three = book("[lettering]\nwords = \"OXBY / Hours / 1911\"\n");
  CHECK(three.given.value(FigureId::letter_lines) == 3);
  CHECK(three.given.value(FigureId::letters) == 13);
  CHECK(book("title = \"A b c\"\n[lettering]\nlines = 2\n").given.value(FigureId::letter_lines) == 2);
  CHECK(book("title = \"A b c\"\n[lettering]\n").given.value(FigureId::letter_lines) == 1);
  CHECK(faults_of("[lettering]\nwords = \"A / B\"\nlines = 3\n") == "4:9 contradiction lettering.lines\n");
  CHECK(faults_of("title = \"A b\"\n[lettering]\nlines = 3\n") == "4:9 contradiction lettering.lines\n");
}

TEST_CASE("an inset lies within its side, and a panel within its board") {
  std::string_view const shape = "height = \"40 mm\"\nwidth = \"30 mm\"\n";
  std::string const onlay = "[[insets]]\nkind = \"onlay\"\nmaterial = \"goat\"\n";
  std::string const panel = "[[insets]]\nkind = \"panel\"\nmaterial = ";
  BookSpec const with = book(onlay + std::string(shape));
  REQUIRE(with.insets.size() == 1);
  CHECK(with.insets[0].count == 1);
  CHECK(layers::code_of(with, Role::inset_adhesive) == "paste");
  CHECK(faults_of(onlay + "height = \"900 mm\"\nwidth = \"30 mm\"\n") == "2:1 contradiction insets[1]\n");
  CHECK(faults_of(onlay) == "2:1 missing-key insets[1].height\n2:1 missing-key insets[1].width\n");
  CHECK(faults_of("[[insets]]\nkind = \"onlay\"\nmaterial = \"card\"\n" + std::string(shape)) ==
        "4:12 wrong-kind insets[1].material\n");
  CHECK(faults_of(panel + "\"card\"\n" + std::string(shape)).empty());
  CHECK(faults_of(panel + "\"stone\"\n" + std::string(shape)).empty());
  CHECK(faults_of(panel + "\"board-3\"\n" + std::string(shape)) == "2:1 contradiction insets[1]\n");
  CHECK(faults_of(panel + "\"paste\"\n" + std::string(shape)) == "4:12 wrong-kind insets[1].material\n");
  CHECK(
      refuses(panel + "\"card\"\n" + std::string(shape), "long-stitch", "3:8 contradiction insets[1].kind"));
}

TEST_CASE("furniture is sold by the piece, and its rivets ask for rivets") {
  BookSpec const with = book("[[furniture]]\nmaterial = \"buckle\"\ncount = 5\nrivets_each = 2\n");
  REQUIRE(with.furniture.size() == 1);
  CHECK(with.furniture[0].rivets_each == 2);
  CHECK(layers::code_of(with, Role::rivet) == "rivet");
  CHECK(faults_of("[[furniture]]\nmaterial = \"ribbon\"\n") == "3:12 wrong-kind furniture[1].material\n");
  CHECK(faults_of("customer_supplies = [\"buckle\"]\n[[furniture]]\nmaterial = \"buckle\"\n").empty());
}

TEST_CASE("what is fixed to boards is refused where there are none") {
  CHECK(refuses("[clasps]\n", "single-section", "refused-part clasps"));
  CHECK(refuses("[clasps]\n", "long-stitch", "refused-part clasps"));
  CHECK_FALSE(refuses("[clasps]\n", "raised-cords", "refused-part"));
}

TEST_CASE("endbands are sewn with the workshop's needlefuls on a block that comes sewn") {
  BookSpec const sewn = book(
      "without = [\"sewing\"]\n[text]\ngiven = true\nthickness = \"31 mm\"\nsections = 26\n"
      "density = \"700 kg/m3\"\n");
  CHECK(sewn.given.has(FigureId::needle_length));
}
