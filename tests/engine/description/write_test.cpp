// Values written as a description would have them.
#include "tests/engine/description/few_keys.h"

#include <doctest/doctest.h>

using namespace endband;

TEST_CASE("a value is written as it would be said") {
  for (std::string_view const line : {"height = \"250 mm\"",
                                      "height = \"298.45 mm\"",
                                      "text.caliper = \"0.125 mm\"",
                                      "pages = 300",
                                      "endbands.packing = 0.9",
                                      "text.compression = \"97.5 %\"",
                                      "spine.round = \"97.5 deg\"",
                                      "extra.wait = \"2 h 30 min\"",
                                      "extra.time = \"10 min/20 min/1 h\"",
                                      "text.density = \"800 kg/m3\"",
                                      "extra.weight = \"12.5 g\"",
                                      "extra.amount = \"2.5 pieces\"",
                                      "extra.amount = \"1500 mm\"",
                                      "extra.amount = \"620000.25 mm2\"",
                                      "extra.amount = \"20 ml\"",
                                      "quote.price = \"12.50\"",
                                      "leather = \"goat-green\"",
                                      "silk = [\"silk-red\", \"silk-cream\"]",
                                      "title = \"Zo\u00eb \\\"x\\\" \\\\\"",
                                      "text.given = true",
                                      "sewing.thread_number = \"18/3\"",
                                      "quote.until = 2026-11-25"}) {
    CAPTURE(line);
    auto const read = few_keys::value(line);
    REQUIRE(read);
    std::size_t const equals = line.find(" = ");
    ValueType const type = key_named(few_keys::rows, line.substr(0, equals))->type;
    CHECK(value_text(type, *read) == line.substr(equals + 3));
  }
}

TEST_CASE("a share that no decimal holds is written as a fraction") {
  CHECK(value_text(ValueType::share, Value(Ratio(2, 3))) == "\"2/3\"");
  CHECK(value_text(ValueType::number, Value(Ratio(2, 3))) == "\"2/3\"");
}
