// Descriptions as text, resolved against the sample catalogue, for the tests of resolve.
#pragma once

#include "engine/book/spec.h"
#include "tests/fixtures/sample_spec.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>
#include <vector>

namespace endband::layers {

// The habits of a workshop: a material for every role of a plain book and more.
inline constexpr std::string_view habits =
    "endband = 1\n"
    "leather = \"goat\"\n"
    "[text]\npaper = \"paper-cream\"\n"
    "[endpapers]\npaper = \"paper-end\"\n"
    "[sewing]\nthread = \"thread-18-3\"\nwax = \"wax\"\ncord = \"cord-5\"\nsupports = 4\n"
    "[spine]\nadhesive = \"pva\"\nlining = \"linen\"\npaper = \"paper-spine\"\n"
    "[boards]\nmaterial = \"board-3\"\n"
    "[cover]\npaste = \"paste\"\ndye = \"dye\"\n"
    "[endbands]\ncore = \"core-2\"\nsilk = [\"silk-red\", \"silk-white\"]\n"
    "[registers]\nribbon = \"ribbon\"\n"
    "[finishing]\nleaf = \"leaf-gold\"\nsize = \"size\"\nvarnish = \"varnish\"\n"
    "[corners]\nmaterial = \"corner\"\nadhesive = \"epoxy\"\n"
    "[clasps]\nmaterial = \"clasp\"\n[rivets]\nmaterial = \"rivet\"\n"
    "[strap]\nbuckle = \"buckle\"\n"
    "[stone]\nmaterial = \"stone\"\nadhesive = \"epoxy\"\n"
    "[packing]\ncarton = \"carton\"\npadding = \"padding\"\n";

inline BookText text_of(std::string_view text, std::string source = "book.toml") {
  auto read = read_description(text, std::move(source), description_keys());
  if (!read) {
    Fault const& fault = read.error().front();
    FAIL(fault.where.line << ":" << fault.where.column << " " << fault_row(fault.code).name << " "
                          << fault.expected);
  }
  return *std::move(read);
}

// Said, a model and the workshop's habits, as a quote takes them; practice lies below.
class Four {
 public:
  explicit Four(std::string_view said, std::string_view model = "raised-cords",
                std::string_view workshop = habits)
      : said_(text_of(said)), model_(*model_text(model)), workshop_(text_of(workshop, "workshop")) {}

  std::vector<Layer> list() const {
    return {{&said_, Origin::said}, {&model_, Origin::model}, {&workshop_, Origin::workshop}};
  }
  Read<BookSpec> resolve(Catalogue const& catalogue) const { return endband::resolve(list(), catalogue); }
  Read<BookSpec> resolve() const { return resolve(fixtures::sample_catalogue()); }
  std::vector<std::string> codes() const { return codes_named(list()); }

 private:
  BookText said_, model_, workshop_;
};

// "3:7 contradiction pages"; no place: "wrong-kind leather"
inline std::string brief(Fault const& fault) {
  std::string place;
  if (fault.where.line > 0)
    place = std::to_string(fault.where.line) + ':' + std::to_string(fault.where.column) + ' ';
  return place + std::string(fault_row(fault.code).name) + ' ' + fault.where.field;
}

inline std::string faults_of(Read<BookSpec> const& spec) {
  std::string told;
  if (!spec)
    for (Fault const& fault : spec.error()) told += brief(fault) + '\n';
  return told;
}
inline std::string faults_of(std::string_view said) {
  return faults_of(Four("endband = 1\n" + std::string(said)).resolve());
}

// The book of a description that has no faults.
inline BookSpec book(std::string_view said) {
  auto spec = Four("endband = 1\n" + std::string(said)).resolve();
  INFO(faults_of(spec));
  REQUIRE(spec);
  return *std::move(spec);
}

inline std::string code_of(BookSpec const& spec, Role role) {
  Chosen const& chosen = spec.chosen(role);
  return chosen.origin == Origin::none ? std::string()
                                       : fixtures::sample_catalogue().at(chosen.material).code;
}

}  // namespace endband::layers
