// Copies, volumes and work by other hands, from a description to the book that it says.
#include "layers.h"

#include <doctest/doctest.h>

using namespace endband;
using namespace endband::layers;

namespace {

constexpr std::string_view size = "height = \"250 mm\"\nwidth = \"180 mm\"\n";
std::string sized(std::string_view rest) { return std::string(size) + std::string(rest); }
std::string paged(std::string_view rest) { return sized("pages = 300\n") + std::string(rest); }

// A model would have pages of its own.
Read<BookSpec> without_model(std::string_view said) {
  BookText const description = text_of("endband = 1\n" + std::string(said));
  BookText const workshop = text_of(habits, "workshop");
  return resolve(std::vector<Layer>{{&description, Origin::said}, {&workshop, Origin::workshop}},
                 fixtures::sample_catalogue());
}

OutsideWork only_outside(std::string_view rows) {
  BookSpec const spec = book(paged(rows));
  REQUIRE(spec.outside.size() == 1);
  return spec.outside.front();
}

}  // namespace

TEST_CASE("copies are one unless said") {
  CHECK(book(paged("")).copies == 1);
  CHECK(book(paged("copies = 12\n")).copies == 12);
}

TEST_CASE("a block that the customer brings is bound once") {
  std::string const given =
      "[text]\ngiven = true\nthickness = \"30 mm\"\nsections = 20\ndensity = \"800 kg/m3\"\n";
  CHECK(layers::Four("endband = 1\n" + paged("copies = 1\n" + given), "rebinding").resolve());
  auto const twice = layers::Four("endband = 1\n" + paged("copies = 2\n" + given), "rebinding").resolve();
  REQUIRE_FALSE(twice);
  REQUIRE(twice.error().size() == 1);
  CHECK(twice.error().front().code == FaultCode::contradiction);
  CHECK(twice.error().front().where.line == 5);
  CHECK(twice.error().front().found == "copies = 2");
}

TEST_CASE("each volume says what it has in place of the description") {
  BookSpec const set =
      book(paged("[set]\nsame = \"skin\"\n[[volumes]]\ntitle = \"One\"\n"
                 "[[volumes]]\npages = 160\nthickness = \"21 mm\"\n"));
  REQUIRE(set.volumes.size() == 2);
  CHECK(set.set_shares == SetShares::skin);
  CHECK(set.volumes[0].title == "One");
  CHECK_FALSE(set.volumes[0].said.has(FigureId::pages_wanted));
  CHECK(set.volumes[1].said.value(FigureId::pages_wanted) == 160);
  CHECK(set.volumes[1].said.value(FigureId::block_thickness) == 21);
}

TEST_CASE("sections of a volume are whole sheets, as those of the book are") {
  BookSpec const set =
      book(paged("[text]\nsheets_per_section = 4\n[[volumes]]\nsections = 20\n[[volumes]]\nsheets = 33\n"));
  CHECK(set.volumes[0].said.value(FigureId::sheets) == 80);
  CHECK(set.volumes[0].said.value(FigureId::sections) == 20);
  CHECK(set.volumes[1].said.value(FigureId::sheets) == 33);
}

TEST_CASE("a set whose volumes all say their pages needs no others") {
  auto const set = without_model(sized("[[volumes]]\npages = 200\n[[volumes]]\npages = 160\n"));
  INFO(faults_of(set));
  REQUIRE(set);
  CHECK(set->given.value(FigureId::pages_wanted) == 200);
  CHECK(faults_of(without_model(sized("[[volumes]]\npages = 200\n[[volumes]]\ntitle = \"Two\"\n"))) ==
        "missing-key pages\n");
}

TEST_CASE("what a volume cannot say is refused where it stands") {
  CHECK(faults_of(paged("[[volumes]]\npages = 200\nsheets = 50\n")) ==
        "7:10 contradiction volumes[1].sheets\n");
  CHECK(faults_of(paged("[set]\nsame = \"skin\"\n")) == "6:8 contradiction set.same\n");
  // Thinner than its endpapers.
  CHECK(faults_of(paged("[[volumes]]\ntitle = \"One\"\n[[volumes]]\nthickness = \"0.5 mm\"\n"))
            .find("volumes[2]") != std::string::npos);
}

TEST_CASE("work by other hands is by the whole, at cost, for each copy, a die is made once") {
  OutsideWork const work = only_outside("[[outside]]\nwords = \"a map printed\"\nprice = \"12.00\"\n");
  CHECK(work.by == OutsideBy::whole);
  CHECK(work.kind == OutsideKind::other);
  CHECK(work.each_copy);
  CHECK(work.at_cost);
  CHECK(work.redo == Ratio(0));
  CHECK_FALSE(only_outside("[[outside]]\nwords = \"a die\"\nprice = \"85.00\"\nkind = \"die\"\n").each_copy);
  CHECK(only_outside("[[outside]]\nwords = \"a die\"\nprice = \"85.00\"\nkind = \"die\"\neach_copy = true\n")
            .each_copy);
}

TEST_CASE("all that is said of work by other hands is kept") {
  OutsideWork const work = only_outside(
      "[[outside]]\nwords = \"gild\"\nprice = \"3.30\"\nkind = \"edge-gilding\"\nby = \"dm2\"\narea = \"2.5 "
      "dm2\"\n"
      "supplier = \"Gilt Edge Works\"\nleast_charge = \"25.00\"\ncarriage = \"9.00\"\nredo = \"10 %\"\n"
      "at_cost = false\nlead = \"48 h\"\n");
  CHECK(work.kind == OutsideKind::edge_gilding);
  CHECK(work.by == OutsideBy::dm2);
  CHECK(work.area == Area{25'000'000'000});
  CHECK(work.supplier == "Gilt Edge Works");
  CHECK(work.least_charge == "25.00");
  CHECK(work.carriage == "9.00");
  CHECK(work.redo == Ratio(1, 10));
  CHECK_FALSE(work.at_cost);
  CHECK(work.lead.n == 48 * 3600);
}

TEST_CASE("a price by the dm2 of nothing, a count of no pieces, skins of no leather are told") {
  constexpr std::string_view row = "[[outside]]\nwords = \"x\"\nprice = \"3.00\"\n";
  auto const faults = [&](std::string_view rest) {
    return faults_of(paged(std::string(row) + std::string(rest)));
  };
  CHECK(faults("by = \"dm2\"\n") == "5:1 missing-key outside[1].area\n");
  CHECK(faults("by = \"dm2\"\nkind = \"splitting\"\n") == "");  // the leather of the cover
  CHECK(faults("by = \"dm2\"\nkind = \"edge-gilding\"\n") == "5:1 missing-key outside[1].area\n");
  CHECK(faults("by = \"dm2\"\narea = \"2 m\"\n") == "9:8 wrong-unit outside[1].area\n");
  CHECK(faults("count = 3\n") == "8:9 contradiction outside[1].count\n");
  CHECK(faults("area = \"2 dm2\"\n") == "8:8 contradiction outside[1].area\n");
  CHECK(faults("by = \"skin\"\neach_copy = false\n") == "9:13 contradiction outside[1].each_copy\n");
}
