#include "engine/commission/options.h"

#include "engine/book/spec.h"
#include "engine/book/structure.h"
#include "tests/engine/book/layers.h"

#include <doctest/doctest.h>

#include <algorithm>

using namespace endband;

namespace {

BookText text_of(std::string const& text) {
  return read_description("endband = 1\n" + text, "book.toml", description_keys()).value();
}

Read<std::vector<Option>> read(std::string const& text) {
  return options_of(text_of(text), description_keys());
}

std::vector<Fault> faults_of(std::string const& change) {
  return read("[[options]]\nwords = \"otherwise\"\nchange = '" + change + "'\n").error();
}

constexpr auto three = R"(
leather = "goat-moss-08"
pages = 320
[edges]
kind = "cut"
[[options]]
words = "in half leather"
either = "cover"
change = "cover.extent = half; cover.sides = marbled-blue"
[[options]]
words = "with three silks"
change = 'endbands.silk = ["silk-red", "silk-cream", "silk-red"]; endbands.pattern = silk-red, silk-cream;'
[[options]]
words = "in cloth"
either = "cover"
change = 'cover.material = "buckram-navy"; cover.pared = "0.4 mm"'
)";

std::string value_of(BookText const& text, std::string_view key) {
  Entry const* const entry = text.find(key);
  return entry == nullptr ? "" : value_text(key_named(description_keys(), key)->type, entry->value);
}

BookText with(BookText const& said, std::vector<Option const*> const& taken) {
  return with_options(said, taken);
}

}  // namespace

TEST_CASE("options are read by the keys of a description, with quotes or without") {
  auto const options = read(three);
  REQUIRE(options.has_value());
  REQUIRE(options->size() == 3);
  Option const& half = options->at(0);
  CHECK(half.words == "in half leather");
  CHECK(half.either == "cover");
  REQUIRE(half.changes.size() == 2);
  CHECK(half.changes[0].key == "cover.extent");
  CHECK(half.changes[0].row == -1);
  CHECK(std::get<std::string>(half.changes[0].value) == "half");
  CHECK(std::get<std::string>(half.changes[1].value) == "marbled-blue");
  CHECK(half.where.line == 10);
  CHECK(half.where.field == "options[1].change");
  CHECK(half.changes[1].where.line == 10);
  CHECK(options->at(1).either.empty());
  CHECK(std::get<std::vector<std::string>>(options->at(1).changes.at(0).value).size() == 3);
  CHECK(std::get<std::string>(options->at(2).changes.at(0).value) == "buckram-navy");
  CHECK(std::get<std::int64_t>(options->at(2).changes.at(1).value) == 400'000);
}

TEST_CASE("a semicolon within quotes parts no changes") {
  auto const options =
      read("[[options]]\nwords = \"a\"\nchange = 'title = \"Salt; and Water\"; pages = 96'\n");
  REQUIRE(options.has_value());
  REQUIRE(options->at(0).changes.size() == 2);
  CHECK(std::get<std::string>(options->at(0).changes[0].value) == "Salt; and Water");
  CHECK(std::get<std::int64_t>(options->at(0).changes[1].value) == 96);
}

TEST_CASE("every value of every model is read in a change as a description has it") {
  int read_back = 0;
  for (Model const& model : models()) {
    BookText const text = model_text(model.name).value();
    for (Entry const& entry : text.entries) {
      KeyRow const* const key = key_named(description_keys(), entry.key);
      if (key == nullptr || entry.row >= 0 || entry.key == "endband") continue;
      CAPTURE(entry.key);
      BookText said;
      said.entries = {{"options[].words", 0, Value(std::string("a")), {}},
                      {"options[].change", 0, entry.key + " = " + value_text(key->type, entry.value), {}}};
      auto const options = options_of(said, description_keys());
      REQUIRE(options.has_value());
      CHECK(options->at(0).changes.at(0).value == entry.value);
      ++read_back;
    }
  }
  CHECK(read_back > 20);
}

TEST_CASE("a description without options has none") { CHECK(read("pages = 100\n")->empty()); }

TEST_CASE("a change replaces what was said of its key, and what says the same in another way") {
  BookText const said = text_of(three);
  auto const options = options_of(said, description_keys()).value();
  BookText const half = with(said, {&options[0], &options[1]});
  CHECK(value_of(half, "cover.extent") == "\"half\"");
  CHECK(value_of(half, "leather") == "\"goat-moss-08\"");
  CHECK(value_of(half, "endbands.silk") == R"(["silk-red", "silk-cream", "silk-red"])");
  CHECK(value_of(half, "endbands.pattern") == R"(["silk-red", "silk-cream"])");
  CHECK(half.entries.size() == said.entries.size() + 4);
  BookText const cloth = with(said, {&options[2]});
  CHECK(value_of(cloth, "cover.material") == "\"buckram-navy\"");
  CHECK(cloth.find("leather") == nullptr);
  CHECK(value_of(with(said, {}), "leather") == "\"goat-moss-08\"");

  auto const fewer =
      read("[[options]]\nwords = \"thin\"\nchange = \"text.sheets = 30; edges.kind = uncut\"\n").value();
  BookText const thin = with(said, {&fewer[0]});
  CHECK(thin.find("pages") == nullptr);
  CHECK(value_of(thin, "text.sheets") == "30");
  CHECK(value_of(thin, "edges.kind") == "\"uncut\"");
  CHECK(std::count_if(thin.entries.begin(), thin.entries.end(),
                      [](Entry const& entry) { return entry.key == "edges.kind"; }) == 1);
}

TEST_CASE("of options that bear the same word one can be taken") {
  BookText const said = text_of(three);
  auto const options = options_of(said, description_keys()).value();
  CHECK_THROWS_AS(with(said, {&options[0], &options[2]}), std::logic_error);
  auto const groups = groups_of(options);
  REQUIRE(groups.size() == 2);
  CHECK(groups[0] == OptionGroup{&options[0], &options[2]});
  CHECK(groups[1] == OptionGroup{&options[1]});
  CHECK(taken_of(groups, {0, 0}).empty());
  CHECK(taken_of(groups, {2, 1}) == OptionGroup{&options[2], &options[1]});
  CHECK_THROWS_AS(taken_of(groups, {3, 0}), std::out_of_range);
  CHECK_THROWS_AS(taken_of(groups, {0}), std::logic_error);
}

TEST_CASE("what a change cannot be is told at the change") {
  struct Wrong {
    std::string change;
    FaultCode code;
    std::string found, near;
  };
  for (Wrong const& wrong :
       {Wrong{"cover.extend = half", FaultCode::unknown_key, "cover.extend", "cover.extent"},
        Wrong{"stitch = two-on", FaultCode::unknown_key, "stitch", "sewing.stitch"},
        Wrong{"cover = full", FaultCode::unknown_key, "cover", ""},
        Wrong{"pages = 320; cover.extent = hald", FaultCode::bad_value, "hald", "half"},
        Wrong{"height = 250", FaultCode::missing_unit, "250", ""},
        Wrong{"pages = 2", FaultCode::out_of_range, "2", ""},
        Wrong{"in half leather", FaultCode::bad_value, "in half leather", ""},
        Wrong{" ; ", FaultCode::bad_value, " ; ", ""},
        Wrong{"pages = 96; pages = 98", FaultCode::contradiction, "pages = 98", ""},
        Wrong{"lines[].kind = blind", FaultCode::contradiction, "lines[].kind", ""},
        Wrong{"options[].words = x", FaultCode::contradiction, "options[].words", ""},
        Wrong{"quote.margin = 1 %", FaultCode::contradiction, "quote.margin", ""},
        Wrong{"endband = 1", FaultCode::contradiction, "endband", ""}}) {
    CAPTURE(wrong.change);
    auto const faults = faults_of(wrong.change);
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].code == wrong.code);
    CHECK(faults[0].found == wrong.found);
    CHECK(faults[0].where.source == "book.toml");
    CHECK(faults[0].where.line == 4);
    CHECK(faults[0].where.field == "options[1].change");
    if (!wrong.near.empty()) {
      REQUIRE_FALSE(faults[0].near.empty());
      CHECK(faults[0].near.front() == wrong.near);
    }
  }
}

TEST_CASE("all faults of all options are told at once, and what is missing of one") {
  auto const faults =
      read("[[options]]\nwords = \"a\"\n[[options]]\nchange = \"pages = x; height = 1\"\n").error();
  REQUIRE(faults.size() == 4);
  CHECK(faults[0].code == FaultCode::missing_key);
  CHECK(faults[0].where.field == "options[1].change");
  CHECK(faults[0].where.line == 2);
  CHECK(faults[1].code == FaultCode::missing_key);
  CHECK(faults[1].where.field == "options[2].words");
  CHECK(faults[2].code == FaultCode::wrong_type);
  CHECK(faults[3].code == FaultCode::missing_unit);
}

TEST_CASE("the longest change that the table of keys allows is read") {
  std::string change = "title = " + std::string(200, 'x');
  change += std::string(500 - change.size(), ' ');
  CHECK(read("[[options]]\nwords = \"a\"\nchange = \"" + change + "\"\n").has_value());
}

namespace {

BookSpec resolved(BookText const& said) {
  BookText const model = model_text("raised-cords").value();
  BookText const workshop = layers::text_of(layers::habits, "workshop");
  std::vector<Layer> const list{
      {&said, Origin::said}, {&model, Origin::model}, {&workshop, Origin::workshop}};
  Read<BookSpec> spec = resolve(list, fixtures::sample_catalogue());
  if (!spec) FAIL(layers::faults_of(spec));
  return *std::move(spec);
}

constexpr auto a_book = "height = \"210 mm\"\nwidth = \"148 mm\"\npages = 320\n";

}  // namespace

TEST_CASE("a book with its options is another book") {
  BookText const said = text_of(std::string(a_book) + R"(
[[options]]
words = "half leather"
change = "cover.extent = half; cover.sides = paper-end"
[[options]]
words = "without its corners, on fewer pages"
change = "without = corners; text.sheets = 40"
)");
  auto const options = options_of(said, description_keys()).value();
  BookSpec const as_it_is = resolved(said);
  BookSpec const otherwise = resolved(with(said, {&options[0], &options[1]}));
  CHECK(as_it_is.ways.has(Way::full));
  CHECK(otherwise.ways.has(Way::half));
  CHECK(as_it_is.chosen(Role::sides).origin == Origin::none);
  CHECK(otherwise.chosen(Role::sides).origin == Origin::said);
  CHECK(otherwise.given[FigureId::sheets].value == 40);
  CHECK(structure(otherwise, fixtures::sample_catalogue()).mass.n <
        structure(as_it_is, fixtures::sample_catalogue()).mass.n);
}

TEST_CASE("resolve makes the same book of a description with options and terms of its quote as without") {
  std::string const terms = R"(
[quote]
outlet = "fair-of-saltmarket"
service = "parcel-tracked"
to = "DE"
made_to = "personal"
because = "the name of the owner is in gold on the cover"
discount = "10 %"
discount_because = "a cousin"
profit = "100"
[[options]]
words = "with no box"
either = "box"
change = "without = box"
)";
  BookSpec const a = resolved(text_of(a_book));
  BookSpec const b = resolved(text_of(a_book + terms));
  CHECK(a.ways == b.ways);
  for (std::size_t i = 0; i < role_count; ++i) {
    CHECK(a.materials[i].material == b.materials[i].material);
    CHECK(a.materials[i].origin == b.materials[i].origin);
  }
  Structure const made_a = structure(a, fixtures::sample_catalogue());
  Structure const made_b = structure(b, fixtures::sample_catalogue());
  CHECK(made_a.mass.n == made_b.mass.n);
  CHECK(made_a.pieces.size() == made_b.pieces.size());
}
