// Sewing, guards, endpapers and repairs as a description says them, and what it cannot say.
#include "engine/book/structure.h"
#include "layers.h"
#include "made.h"

#include <string>

using namespace endband;
using namespace endband::layers;
using enum FigureId;

namespace {

// The sample's shelf with a tape on it.
Catalogue with_tape() {
  Catalogue catalogue = fixtures::sample_catalogue();
  Material tape;
  tape.id = {1000};
  tape.version = 1000;
  tape.code = "tape-15";
  tape.name = "linen tape";
  tape.kind = MaterialKind::cord;
  tape.sold_by = SoldBy::length;
  tape.least_spoil = {Dimension::length, 0};
  tape.properties.caliper = fixtures::thick(0.4);
  tape.properties.width = fixtures::mm(15);
  auto const at = std::lower_bound(catalogue.materials.begin(), catalogue.materials.end(), tape.code,
                                   [](Material const& m, std::string const& code) { return m.code < code; });
  catalogue.materials.insert(at, tape);
  return catalogue;
}

Read<BookSpec> read_as(std::string_view model, std::string_view said) {
  std::string const habits_with_tape = std::string(habits) + "[guards]\npaper = \"card\"\n";
  return Four("endband = 1\n" + std::string(said), model, habits_with_tape).resolve(with_tape());
}

std::string refused(std::string_view model, std::string_view said) { return faults_of(read_as(model, said)); }

// What the first fault expects, or that there is none.
std::string expected_of(std::string_view said) {
  auto const spec = Four("endband = 1\n" + std::string(said)).resolve();
  return spec ? "no fault" : spec.error().front().expected;
}

constexpr std::string_view given_block =
    "height = \"210 mm\"\nwidth = \"148 mm\"\n"
    "[text]\ngiven = true\nthickness = \"31 mm\"\nsections = 24\ndensity = \"700 kg/m3\"\n";

}  // namespace

TEST_CASE("sewn on tapes, a book has the tape's width, and a width that is said stands instead") {
  auto const of = [](std::string_view sewing) {
    auto const spec =
        Four("endband = 1\nbinding = \"raised-cords\"\n" + std::string(sewing)).resolve(with_tape());
    return faults_of(spec);
  };
  // The binding refuses tapes with a sentence; what is said of a tape beside cords is a mistake too.
  CHECK(of("[sewing]\non = \"tapes\"\n") == "4:6 refused-part sewing.on\n");
  CHECK(of("[sewing]\ntape = \"tape-15\"\n") == "4:8 contradiction sewing.tape\n");
  CHECK(of("[sewing]\ntape_width = \"12 mm\"\n") == "4:14 contradiction sewing.tape_width\n");
}

TEST_CASE("keys of another sewing are a mistake where they are said, and a habit elsewhere") {
  CHECK(faults_of("[sewing]\nstations = 5\n") == "3:12 contradiction sewing.stations\n");
  CHECK(faults_of("[sewing]\nknot_tail = \"50 mm\"\n") == "3:13 contradiction sewing.knot_tail\n");
  Four const habit("endband = 1\n", "raised-cords", std::string(habits) + "[guards]\nwidth = \"20 mm\"\n");
  CHECK(faults_of(habit.resolve()).empty());
  // A pamphlet has no cords, and all its sheets are one section.
  std::string const pamphlet =
      refused("single-section", "[sewing]\nsupports = 4\n[text]\nsheets_per_section = 4\n");
  CHECK(pamphlet.find("3:12 contradiction sewing.supports\n") != std::string::npos);
  CHECK(pamphlet.find("5:22 contradiction text.sheets_per_section\n") != std::string::npos);
}

TEST_CASE("only a block that the customer brings keeps its sewing") {
  CHECK(faults_of("without = [\"sewing\"]\n") == "2:11 contradiction without\n");
  BookSpec const kept = book("without = [\"sewing\"]\n" + std::string(given_block));
  CHECK_FALSE(kept.has(Part::sewing));
  Structure const made = structure(kept, fixtures::sample_catalogue());
  CHECK(made.figures.value(swell) == 0);
  CHECK(made.figures.value(spine_width) == 31);
  CHECK(made.figures.value(supports) == 5);  // its cords are there all the same
  CHECK(tests::times(made, OperationKind::sew_sections) == 0);
  CHECK(tests::all(made.runs, Item::sewing_thread).empty());
}

TEST_CASE("a section too thick to fold is refused, with what would fold") {
  CHECK(expected_of("[text]\nsheets_per_section = 20\n") == "no fault");  // 4.8 mm
  std::string const said = "[text]\nsheets_per_section = 8\nthickest_section = \"1 mm\"\n";
  CHECK(faults_of(said) == "3:22 out-of-range text.sheets_per_section\n");
  CHECK(expected_of(said) ==
        "at most 4 sheets in a section, or thinner paper: one of more than 1 mm is too thick to fold");
  // Four sheets are 8 leaves of 0.12 mm, just under.
  CHECK(expected_of("[text]\nsheets_per_section = 4\nthickest_section = \"1 mm\"\n") == "no fault");
  CHECK(expected_of("[text]\nfolds = 5\nsheets_per_section = 1\nthickest_section = \"3 mm\"\n") ==
        "a paper of at most 0.0938 mm, or fewer folds: one of more than 3 mm is too thick to fold");
}

TEST_CASE("a block thicker than any that may be measured is refused, as what makes it so") {
  CHECK(expected_of("pages = 4000\n") == "no fault");  // 0.24 m
  std::string const album = "pages = 4000\n[guards]\nmounted = \"8 mm\"\n";
  CHECK(faults_of(album) == "4:11 out-of-range guards.mounted\n");
  CHECK(expected_of(album) == "at most 500 mm thick: fewer leaves, or less mounted on them");
  CHECK(expected_of("pages = 80\n[guards]\nmounted = \"8 mm\"\n") == "no fault");
}

TEST_CASE("a spine that its cords are wider than is refused") {
  CHECK(faults_of("pages = 8\n[endpapers]\neach_end = 1\n") == "2:9 out-of-range pages\n");
  CHECK(faults_of("height = \"60 mm\"\n[sewing]\nsupports = 8\n") == "4:12 out-of-range sewing.supports\n");
}

TEST_CASE("made endpapers are two at each end, unless fewer are said") {
  BookSpec const two = book("[endpapers]\nkind = \"made\"\n");
  CHECK(two.given.value(endpapers_each_end) == 2);
  CHECK(faults_of("[endpapers]\nkind = \"made\"\neach_end = 1\n") ==
        "4:12 contradiction endpapers.each_end\n");
}

TEST_CASE("uncut edges have no trim, but one that is said") {
  BookSpec const uncut = book("[edges]\nkind = \"uncut\"\n");
  Structure const made = structure(uncut, fixtures::sample_catalogue());
  CHECK(made.figures.value(head_tail_trim) == 0);
  CHECK(made.figures.value(fore_edge_trim) == 0);
  CHECK(tests::times(made, OperationKind::trim_edges) == 0);
  BookSpec const head = book("[edges]\nkind = \"uncut\"\n[text]\nhead_tail_trim = \"3 mm\"\n");
  CHECK(structure(head, fixtures::sample_catalogue()).figures.value(head_tail_trim) == 3);
}

TEST_CASE("repairs come with their counts, times and ceiling") {
  BookSpec const spec =
      book("pages = 320\n" + std::string(given_block) +
           "[[repairs]]\nkind = \"collate\"\n"
           "[[repairs]]\nkind = \"mend\"\ncount = 6\n"
           "[[repairs]]\nkind = \"other\"\nwords = \"wash a map\"\ntime = \"1 h / 2 h / 4 h\"\n"
           "[repair]\nceiling = \"30 %\"\n"
           "[[custody]]\nwhat = \"the book\"\ncondition = \"boards off\"\n");
  REQUIRE(spec.repairs.size() == 3);
  CHECK(spec.repairs[0].kind == RepairKind::collate);
  CHECK_FALSE(spec.repairs[0].count);
  CHECK(spec.repairs[1].count == 6);
  CHECK(spec.repairs[2].words == "wash a map");
  CHECK(spec.repairs[2].likely == Duration{7200});
  CHECK(spec.repair_ceiling == Ratio(3, 10));
  REQUIRE(spec.custody.size() == 1);
  CHECK(spec.custody[0].condition == "boards off");
  Structure const made = structure(spec, fixtures::sample_catalogue());
  CHECK(tests::times(made, OperationKind::collate_block) == 160);
  CHECK(tests::times(made, OperationKind::other_repair) == 1);
  CHECK(tests::times(made, OperationKind::receive_custody) == 1);
}

TEST_CASE("a repair that cannot be counted, timed or done is refused") {
  std::string const given(given_block);  // its lines are 2 to 8
  auto const of = [&](std::string const& row) { return faults_of(given + "[[repairs]]\n" + row); };
  CHECK(of("kind = \"mend\"\n") == "9:1 missing-key repairs[1].count\n");
  CHECK(of("kind = \"clean\"\n") == "missing-key pages\n");
  CHECK(of("kind = \"reback\"\ncount = 2\n") == "11:9 contradiction repairs[1].count\n");
  CHECK(of("kind = \"pull\"\nwords = \"gently\"\n") == "11:9 contradiction repairs[1].words\n");
  CHECK(of("kind = \"other\"\nwords = \"wash\"\n") == "9:1 missing-key repairs[1].time\n");
  CHECK(faults_of("[[repairs]]\nkind = \"collate\"\n") == "2:1 contradiction repairs[1]\n");
  CHECK(faults_of("without = [\"sewing\"]\n" + given + "[[repairs]]\nkind = \"resew\"\n") ==
        "10:1 contradiction repairs[1]\n");
  CHECK(faults_of("[repair]\nceiling = \"30 %\"\n") == "3:11 contradiction repair.ceiling\n");
}

TEST_CASE("guards need to know what is mounted, and a given block its leaves") {
  CHECK(faults_of("[guards]\nwidth = \"30 mm\"\n") == "missing-key guards.mounted\n");
  BookSpec const spec = book("[guards]\nmounted = \"0.3 mm\"\n");
  CHECK(code_of(spec, Role::guard_paper) == "paper-cream");  // the text's own
  Structure const made = structure(spec, fixtures::sample_catalogue());
  CHECK(made.figures.value(guards_a_leaf) == 3);  // of 0.12 mm
  CHECK(made.figures.value(guards) == 3 * made.figures.value(leaves));
  CHECK(faults_of(std::string(given_block) + "[guards]\nmounted = \"0.3 mm\"\npaper = \"card\"\n") ==
        "missing-key pages\n");
}
