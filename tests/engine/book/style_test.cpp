// The rows of the bindings keep what they say of themselves, and refuse with a sentence.
#include "engine/book/style.h"

#include "layers.h"

#include <doctest/doctest.h>

#include <string>

using namespace endband;

namespace {

std::string choices_of(std::string_view key) {
  return std::string(key_named(description_keys(), key)->choices);
}

template <class Visit>
void each_way(Visit visit) {
  for (std::size_t i = 0; i < way_count; ++i) visit(static_cast<Way>(i));
}

}  // namespace

TEST_CASE("a description may choose every way of every axis, by the names that the ways have") {
  for (std::size_t i = 0; i < axis_count; ++i) {
    auto const axis = static_cast<Axis>(i);
    std::string names;
    each_way([&](Way way) {
      if (way_row(way).axis == axis) names += (names.empty() ? "" : "|") + std::string(way_row(way).name);
    });
    CAPTURE(axis_row(axis).key);
    CHECK(choices_of(axis_row(axis).key) == names);
  }
}

TEST_CASE("the bindings that may be chosen are the rows, and each has a plain model of its name") {
  std::string names;
  for (Style const& style : styles()) {
    names += (names.empty() ? "" : "|") + std::string(style.name);
    CHECK(style_named(style.name) == &style);
    auto const model = model_text(style.name);
    REQUIRE(model);
    CHECK(std::get<std::string>(model->find("binding")->value) == style.name);
  }
  CHECK(choices_of("binding") == names);
  CHECK(style_named("raised-chords") == nullptr);
}

TEST_CASE("a binding is made in one way of each axis, none of which it refuses") {
  for (Style const& style : styles()) {
    CAPTURE(style.name);
    for (std::size_t i = 0; i < axis_count; ++i) {
      Ways const own = style.usual.only(static_cast<Axis>(i));
      auto const way = own.of(static_cast<Axis>(i));
      REQUIRE(way);
      CHECK(own == Ways{*way});
    }
    for (Excludes const& row : excluded_ways())
      if (style.usual.has(row.way))
        each_way([&](Way way) { CHECK_FALSE((row.never.has(way) && style.usual.has(way))); });
  }
}

TEST_CASE("what a binding refuses it refuses with a sentence") {
  for (Style const& style : styles()) {
    for (RefusedWay const& row : style.refused_ways) CHECK(row.because.size() > 10);
    for (RefusedPart const& row : style.refused_parts) CHECK(row.because.size() > 10);
    // A part that it cannot have stays out of it, and no usual way is about it.
    for (RefusedPart const& row : style.refused_parts) CHECK(style.refuses(row.part) == row.because);
  }
  for (Excludes const& row : excluded_ways()) CHECK(row.because.size() > 10);
}

TEST_CASE("a set of ways knows its axes") {
  Ways const usual = styles().front().usual;
  CHECK(usual.of(Axis::stitch) == Way::all_along);
  CHECK(usual.replaced_by({Way::two_on}).of(Axis::stitch) == Way::two_on);
  CHECK(usual.replaced_by({Way::two_on}).of(Axis::support) == Way::raised_cords);
  CHECK(usual.meet({}));
  CHECK(usual.meet({Way::two_on, Way::all_along}));
  CHECK_FALSE(usual.meet({Way::two_on}));
  CHECK_FALSE(usual.meet({Way::all_along, Way::tapes}));  // one axis met, the other not
  CHECK(way_named(Axis::joint, "tight") == Way::tight_joint);
  CHECK(way_named(Axis::back, "tight") == Way::tight);
  CHECK_FALSE(way_named(Axis::back, "groove"));
}

TEST_CASE("a binding that is given what it cannot have says why, where it stands") {
  auto const faults = [](std::string const& said, std::string_view model) {
    return layers::Four("endband = 1\n" + said, model).resolve();
  };
  auto const bands = faults("[false_bands]\ncount = 5\n", "link-stitch");
  REQUIRE_FALSE(bands);
  CHECK(bands.error().front().code == FaultCode::refused_part);
  CHECK(bands.error().front().where.line == 3);
  CHECK(bands.error().front().found == "[false_bands] with binding = \"link-stitch\"");
  CHECK(bands.error().front().expected ==
        "a link-stitched spine is bare: there is nothing for bands to show under");

  auto const hollow = faults("[spine]\nback = \"hollow\"\n", "long-stitch");
  REQUIRE_FALSE(hollow);
  CHECK(hollow.error().front().code == FaultCode::refused_part);
  CHECK(hollow.error().front().found == "spine.back = \"hollow\" with binding = \"long-stitch\"");
  CHECK(hollow.error().front().expected == "a limp wrapper is sewn through: there is no room for a hollow");
}

TEST_CASE("a habit of the workshop that a binding refuses is not meant for it") {
  layers::Four const four("endband = 1\n", "raised-cords",
                          "endband = 1\n[spine]\nback = \"loose\"\n[sewing]\non = \"tapes\"\n");
  auto const spec = four.resolve();
  REQUIRE_FALSE(spec);  // the materials are missing, and nothing else
  for (Fault const& fault : spec.error()) CHECK(fault.code == FaultCode::missing_key);
}

TEST_CASE("one way brings others with it, unless they are said") {
  auto const ways = [](std::string const& said) {
    auto const text = layers::text_of("endband = 1\nbinding = \"single-section\"\n" + said);
    std::vector<Layer> const list{{&text, Origin::said}};
    auto const spec = resolve(list, fixtures::sample_catalogue());
    REQUIRE_FALSE(spec);  // no materials are named: what is asked for shows what it is made of
    std::string asked;
    for (Fault const& fault : spec.error()) asked += fault.where.field + " ";
    return asked;
  };
  CHECK(ways("").find("boards.material") == std::string::npos);
  std::string const cased = ways("[boards]\nattached = \"cased\"\n");
  CHECK(cased.find("boards.material") != std::string::npos);
  CHECK(cased.find("spine.stiffener") != std::string::npos);
}
