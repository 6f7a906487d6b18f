// What resolve refuses, each at its place and all at once.
#include "tests/engine/book/layers.h"

using namespace endband;
using layers::faults_of;
using layers::Four;

namespace {

Fault fault_of(std::string_view said, Catalogue const& catalogue = fixtures::sample_catalogue()) {
  auto const spec = Four("endband = 1\n" + std::string(said)).resolve(catalogue);
  INFO(faults_of(spec));
  REQUIRE(!spec);
  REQUIRE(spec.error().size() == 1);
  return spec.error().front();
}

template <class Change>
Catalogue changed(std::string_view code, Change change) {
  Catalogue catalogue = fixtures::sample_catalogue();
  for (Material& material : catalogue.materials)
    if (material.code == code) change(material);
  return catalogue;
}

}  // namespace

TEST_CASE("an unknown material is told with what is near in its kind") {
  Fault const fault = fault_of("leather = \"gaot\"\n");
  CHECK(layers::brief(fault) == "2:11 unknown-material leather");
  CHECK(fault.found == "gaot");
  CHECK(fault.expected == "a code of the catalogue, of kind leather");
  CHECK(fault.near == std::vector<std::string>{"goat"});
}

TEST_CASE("a material of another kind is told with both kinds") {
  Fault const fault = fault_of("leather = \"ribbon\"\n");
  CHECK(layers::brief(fault) == "2:11 wrong-kind leather");
  CHECK(fault.found == "ribbon (ribbon)");
  CHECK(fault.expected == "leather");
  CHECK(fault_of("[spine]\nlining = \"ribbon\"\n").expected == "linen, cloth or leather");
}

TEST_CASE("one code in several roles is faulted once") {
  CHECK(faults_of("[cover]\npaste = \"pasta\"\n") == "3:9 unknown-material cover.paste\n");
}

TEST_CASE("a material without what the calculator needs of it is told with the property") {
  struct Need {
    std::string_view code;
    void (*take)(Material&);
    std::string_view said;
    std::string_view expected;
  };
  for (Need const& need : std::initializer_list<Need>{
           {"paper-cream", [](Material& m) { m.properties.caliper.reset(); }, "", "caliper"},
           {"paper-cream", [](Material& m) { m.properties.grammage_mg.reset(); }, "", "grammage"},
           {"paper-cream", [](Material& m) { m.properties.sheet.reset(); }, "", "sheet"},
           {"thread-18-3", [](Material& m) { m.properties.thread.reset(); }, "", "thread"},
           {"cord-5", [](Material& m) { m.properties.caliper.reset(); }, "", "caliper"},
           {"board-3", [](Material& m) { m.properties.density_kg_m3.reset(); }, "", "density"},
           {"goat", [](Material& m) { m.properties.usable_share.reset(); }, "", "usable-share"},
           {"linen", [](Material& m) { m.properties.width.reset(); }, "", "width"},
           {"pva", [](Material& m) { m.properties.spread_mg_m2.reset(); }, "", "spread"},
           {"dye", [](Material& m) { m.properties.spread_ul_m2.reset(); }, "", "spread"},
           {"carton", [](Material& m) { m.properties.depth.reset(); }, "", "depth"},
           {"clasp", [](Material& m) { m.properties.piece_mass.reset(); }, "[clasps]\n", "piece-mass"},
           {"stone", [](Material& m) { m.properties.height.reset(); }, "[stone]\n", "height"},
           {"leaf-gold", [](Material& m) { m.properties.leaf_side.reset(); },
            "title = \"x\"\n[lettering]\nkind = \"leaf\"\n", "leaf-side"},
           {"card", [](Material& m) { m.properties.caliper.reset(); },
            "[[underlays]]\ncard = \"card\"\nheight = \"9 mm\"\nwidth = \"9 mm\"\n", "caliper"},
       }) {
    CAPTURE(need.code);
    CAPTURE(need.expected);
    auto const spec = Four("endband = 1\n" + std::string(need.said)).resolve(changed(need.code, need.take));
    REQUIRE(!spec);
    for (Fault const& fault :
         spec.error()) {  // an adhesive serves several roles, each named at its own place
      CHECK(fault.code == FaultCode::missing_property);
      CHECK(fault.found == need.code);
      CHECK(fault.expected == need.expected);
    }
  }
}

TEST_CASE("what is said spares the property") {
  auto const thin = changed("paper-cream", [](Material& m) { m.properties.caliper.reset(); });
  CHECK(Four("endband = 1\n[text]\ncaliper = \"0.12 mm\"\n").resolve(thin));
  auto const flat = changed("stone", [](Material& m) { m.properties.height.reset(); });
  CHECK(Four("endband = 1\n[stone]\nheight = \"20 mm\"\n").resolve(flat));
}

TEST_CASE("what follows from other properties is taken from them") {
  auto const dense = changed("paper-cream", [](Material& m) {
    m.properties.grammage_mg.reset();
    m.properties.density_kg_m3 = 750;
  });
  auto const spec = Four("endband = 1\n").resolve(dense);
  REQUIRE(spec);
  CHECK(spec->given.value(FigureId::leaf_grammage) == doctest::Approx(90));  // 750 kg/m3 x 0.12 mm
  CHECK(spec->given[FigureId::leaf_grammage].origin == Origin::catalogue);

  auto const heavy = changed("board-3", [](Material& m) {
    m.properties.density_kg_m3.reset();
    m.properties.grammage_mg = 2'100'000;
  });
  CHECK(Four("endband = 1\n").resolve(heavy)->given.value(FigureId::board_density) == doctest::Approx(700));
}

TEST_CASE("everything that nobody said is told at once, after the faults of the text") {
  auto const said = layers::text_of("endband = 1\nheight = \"200 mm\"\nleather = \"gaot\"\n[corners]\n");
  std::vector<Layer> const two{{&said, Origin::said}};
  CHECK(faults_of(resolve(two, fixtures::sample_catalogue())) ==
        "3:11 unknown-material leather\n"
        "missing-key text.paper\nmissing-key sewing.thread\nmissing-key sewing.cord\nmissing-key "
        "spine.adhesive\n"
        "missing-key spine.lining\nmissing-key spine.paper\nmissing-key boards.material\nmissing-key "
        "cover.paste\n"
        "missing-key corners.material\nmissing-key width\nmissing-key pages\n");
  auto const spec = resolve(two, fixtures::sample_catalogue());
  CHECK(spec.error()[2].expected == "the code of thread, here or as the setting default.sewing.thread");
  CHECK(spec.error()[2].where.source == "book.toml");
}

TEST_CASE("a given block needs what was measured of it") {
  CHECK(faults_of("[text]\ngiven = true\n") ==
        "missing-key text.thickness\nmissing-key text.sections\nmissing-key text.density\n");
  CHECK(faults_of("[text]\ngiven = true\nthickness = \"31 mm\"\nsections = 26\ndensity = \"700 "
                  "kg/m3\"\nfolds = 1\npaper = \"paper-end\"\n") ==
        "7:9 contradiction text.folds\n8:9 contradiction text.paper\n");
}

TEST_CASE("pages, sheets and sections of one layer must agree") {
  Fault const fault = fault_of("pages = 300\n[text]\nsheets = 74\n");
  CHECK(layers::brief(fault) == "4:10 contradiction text.sheets");
  CHECK(fault.found == "text.sheets = 74");
  CHECK(fault.expected == "what agrees with pages = 300");
  CHECK(faults_of("[text]\nsections = 20\nsheets = 75\n") == "4:10 contradiction text.sheets\n");
  CHECK(faults_of("pages = 300\n[text]\nsections = 20\n") == "4:12 contradiction text.sections\n");
}

TEST_CASE("two ways to say one thing are refused in one layer") {
  CHECK(faults_of("[quote]\nmargin = \"20 %\"\nmarkup = \"60 %\"\n") == "4:10 contradiction quote.markup\n");
  CHECK(faults_of("[registers]\nlength = \"300 mm\"\ndiagonal = true\n") ==
        "4:12 contradiction registers.diagonal\n");
  CHECK(faults_of("[strap]\nwraps_round = true\nreach = \"40 mm\"\n") == "4:9 contradiction strap.reach\n");
  CHECK(faults_of("[strap]\noverlap = \"40 mm\"\n") == "3:11 contradiction strap.overlap\n");
  CHECK(faults_of("without = [\"strap\"]\n[strap]\nwidth = \"20 mm\"\n") ==
        "4:9 contradiction strap.width\n");
  CHECK(
      faults_of("without = [\"lines\"]\n[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\ninset = \"9 mm\"\n") ==
      "3:1 contradiction lines[1]\n");
}

TEST_CASE("a row of a list must be whole and make sense") {
  CHECK(faults_of("[[lines]]\n") ==
        "2:1 missing-key lines[1].kind\n2:1 missing-key lines[1].width\n2:1 missing-key lines[1].inset\n");
  CHECK(faults_of("[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\nlayout = \"length\"\n") ==
        "2:1 missing-key lines[1].length\n");
  CHECK(faults_of("[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\nlayout = \"bands\"\ninset = \"4 "
                  "mm\"\nlayers = 2\n") ==
        "6:9 contradiction lines[1].inset\n7:10 contradiction lines[1].layers\n");
  CHECK(faults_of("[[underlays]]\ncard = \"goat\"\nheight = \"9 mm\"\nwidth = \"9 mm\"\n[[underlays]]\ncard "
                  "= \"card\"\n") ==
        "3:8 wrong-kind underlays[1].card\n6:1 missing-key underlays[2].height\n6:1 missing-key "
        "underlays[2].width\n");
  Fault const fault = fault_of("[[extra_materials]]\nmaterial = \"goat\"\namount = \"2 sheets\"\n");
  CHECK(layers::brief(fault) == "4:10 wrong-unit extra_materials[1].amount");
  CHECK(fault.expected == "an area, such as \"0.1 m2\", as goat is sold by skin");
  CHECK(faults_of("[[extra_work]]\nwords = \"x\"\n[[outside]]\nprice = 3\n") ==
        "2:1 missing-key extra_work[1].time\n4:1 missing-key outside[1].words\n");
}

TEST_CASE("lettering needs words or a title") {
  CHECK(faults_of("[lettering]\n") == "missing-key lettering.words\n");
}

TEST_CASE("what the customer supplies must be in the book") {
  Fault const fault = fault_of("customer_supplies = [\"goat\", \"clasp\"]\n");
  CHECK(layers::brief(fault) == "2:21 contradiction customer_supplies");
  CHECK(fault.found == "clasp");
  CHECK(faults_of("customer_supplies = \"nothing\"\n") == "2:21 unknown-material customer_supplies\n");
}

TEST_CASE("a block that no press takes is refused, though each value is in its range") {
  Fault const fault = fault_of("pages = 4000\n[text]\ncaliper = \"1 mm\"\n");
  CHECK(layers::brief(fault) == "2:9 out-of-range pages");
  CHECK(fault.found == "2000 mm of leaves");
  CHECK(fault.expected == "a block of at most 500 mm: fewer leaves, or thinner ones");
  CHECK(faults_of("[text]\nsections = 1000\nsheets_per_section = 20\nfolds = 5\n") ==
        "3:12 out-of-range text.sections\n");
}

TEST_CASE("a measured block is thicker than the endpapers in it") {
  // Two folded endpapers at each end are six free leaves of 0.16 mm.
  Fault const fault = fault_of("[text]\nthickness = \"0.96 mm\"\n[endpapers]\neach_end = 2\n");
  CHECK(layers::brief(fault) == "3:13 contradiction text.thickness");
  CHECK(fault.expected == "more than its 0.96 mm of endpapers");
  CHECK(faults_of("[text]\nthickness = \"6 mm\"\n").empty());  // and than its cords
}

TEST_CASE("nothing is cut to less than nothing") {
  CHECK(faults_of(
            "height = \"20 mm\"\n[sewing]\nkettle_setback = \"10 mm\"\n[spine]\nband_width = \"1 mm\"\n") ==
        "4:18 contradiction sewing.kettle_setback\n");
  CHECK(faults_of("width = \"20 mm\"\n[boards]\nsetback = \"20 mm\"\n") ==
        "4:11 contradiction boards.setback\n");
  CHECK(faults_of("[sewing]\nneedle_length = \"200 mm\"\nneedle_waste = \"200 mm\"\n") ==
        "4:16 contradiction sewing.needle_waste\n");
  CHECK(faults_of("height = \"60 mm\"\n[sewing]\nsupports = 12\n") == "4:12 contradiction sewing.supports\n");
  CHECK(faults_of("width = \"60 mm\"\n[[lines]]\nkind = \"blind\"\nwidth = \"1 mm\"\ninset = \"32 mm\"\n") ==
        "3:1 contradiction lines[1]\n");
}
