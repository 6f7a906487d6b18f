// Random descriptions, each value in its declared range and often at an end of it: what resolve accepts, the
// structure calculator makes into a book.
#include "engine/book/structure.h"
#include "tests/cases.h"
#include "tests/engine/book/layers.h"

#include <rapidcheck.h>

#include <cmath>
#include <map>

using namespace endband;

namespace {

// Between the ends of the row, one end in three draws.
std::int64_t whole(KeyRow const& row, double base) {
  auto const least = std::llround(row.least * base);
  auto const most = std::llround(row.most * base);
  switch (*rc::gen::inRange(0, 6)) {
    case 0: return least;
    case 1: return most;
    default: return *rc::gen::inRange<std::int64_t>(least, most + 1);
  }
}

std::string_view code_for(std::string_view path) {
  static std::map<std::string_view, std::string_view> const codes{
      {"sewing.wax", "wax"},         {"strap.leather", "bridle"},
      {"underlays[].card", "card"},  {"extra_materials[].material", "card"},
      {"quote.customer", "someone"}, {"leather", "goat"}};
  auto const it = codes.find(path);
  return it == codes.end() ? std::string_view() : it->second;
}

std::string codes_for(KeyRow const& row) {
  if (row.path == "endbands.silk") return "[\"silk-red\", \"silk-white\"]";
  if (row.path == "customer_supplies") return "[\"goat\"]";
  return "[\"" +
         std::string(*rc::gen::element("wax", "dye", "packing", "endbands", "endpapers", "registers")) +
         "\"]";
}

// A value as it is written; empty: leave the key out.
std::string any_value(KeyRow const& row) {
  auto const written = [&](double base) { return value_text(row.type, Value(whole(row, base))); };
  switch (row.type) {
    case ValueType::length:
    case ValueType::mass: return written(1e3);
    case ValueType::thickness: return written(1e6);
    case ValueType::duration: return written(60);
    case ValueType::density:
    case ValueType::count: return written(1);
    case ValueType::number:
    case ValueType::share:
    case ValueType::angle: return value_text(row.type, Value(Ratio(whole(row, 1000), 1000)));
    case ValueType::times: return "\"10/20/40 min\"";
    case ValueType::amount: return "\"" + std::to_string(*rc::gen::inRange(1, 10000)) + " sheets\"";
    case ValueType::money: return "\"" + std::to_string(whole(row, 1)) + "\"";
    case ValueType::words: return "\"Wend\"";
    case ValueType::flag: return *rc::gen::arbitrary<bool>() ? "true" : "false";
    case ValueType::date: return "2026-11-25";
    case ValueType::codes: return codes_for(row);
    case ValueType::choice: {
      std::string_view const rest = row.choices;
      auto const bars = std::count(rest.begin(), rest.end(), '|');
      std::string_view choice = rest;
      for (auto skip = *rc::gen::inRange<std::int64_t>(0, bars + 1); skip > 0; --skip)
        choice.remove_prefix(choice.find('|') + 1);
      return '"' + std::string(choice.substr(0, choice.find('|'))) + '"';
    }
    case ValueType::code: {
      std::string_view const code = code_for(row.path);
      return code.empty() ? std::string() : '"' + std::string(code) + '"';
    }
    case ValueType::thread: return "\"18/3\"";
  }
  return {};
}

// Of the keys about one in `one_in`, under their headings; repeated tables once or twice.
std::string any_description(int one_in) {
  std::string text = "endband = 1\n";
  std::string table;
  for (KeyRow const& row : description_keys().subspan(1)) {
    if (row.path == "model" || row.path.starts_with("quote.")) continue;
    std::size_t const point = row.path.rfind('.');
    std::string const of = point == std::string_view::npos ? "" : std::string(row.path.substr(0, point));
    bool const repeated = of.ends_with("[]");
    if (!repeated && *rc::gen::inRange(0, one_in) != 0) continue;  // rows of a list are whole
    std::string const value = any_value(row);
    if (value.empty()) continue;
    if (of != table) {
      text += repeated ? "[[" + of.substr(0, of.size() - 2) + "]]\n" : "[" + of + "]\n";
      table = of;
    }
    text += std::string(row.path.substr(point + 1)) + " = " + value + "\n";
  }
  return text;
}

// Keys that contradict each other are many in a random text: those that are faulted go, until the rest
// agrees.
std::string without_lines(std::string const& text, std::vector<Fault> const& faults) {
  std::string kept;
  bool table_faulted = false;
  int line = 1;
  for (std::size_t at = 0; at < text.size(); ++line) {
    std::size_t const end = text.find('\n', at) + 1;
    bool const faulted =
        std::any_of(faults.begin(), faults.end(), [&](Fault const& f) { return f.where.line == line; });
    if (text[at] == '[') table_faulted = faulted;  // with a heading goes what is under it
    if (!faulted && !table_faulted) kept += text.substr(at, end - at);
    at = end;
  }
  return kept;
}

std::optional<BookSpec> agreeing(std::string text, Catalogue const& catalogue) {
  for (int tries = 0; tries < 12; ++tries) {
    auto spec = layers::Four(text).resolve(catalogue);
    if (spec) return *std::move(spec);
    std::string less = without_lines(text, spec.error());
    if (less == text) return std::nullopt;  // only what is missing is faulted
    text = std::move(less);
  }
  return std::nullopt;
}

}  // namespace

TEST_CASE("what resolve accepts, the structure calculator makes into a book") {
  Catalogue const catalogue = fixtures::sample_catalogue();
  CHECK(endband::testing::check_one_in(100, [&] {
    std::string const text = any_description(*rc::gen::inRange(1, 8));
    auto const spec = agreeing(text, catalogue);
    RC_CLASSIFY(spec.has_value(), "a book");
    if (!spec) return;
    try {
      Structure const made = structure(*spec, catalogue);
      RC_ASSERT(made.mass.n > 0);
    } catch (std::exception const& e) {
      RC_FAIL(std::string(e.what()) + "\n" + text);
    }
  }));
}

TEST_CASE("the strongest layer that says a figure gives it its origin") {
  Catalogue const catalogue = fixtures::sample_catalogue();
  CHECK(rc::check([&] {
    auto const rows = description_keys();
    KeyRow const& row =
        **rc::gen::element(key_named(rows, "boards.square"), key_named(rows, "sewing.slip_length"),
                           key_named(rows, "cover.turn_in"));
    std::array<bool, 3> says{*rc::gen::arbitrary<bool>(), *rc::gen::arbitrary<bool>(),
                             *rc::gen::arbitrary<bool>()};
    std::array<Origin, 3> const origins{Origin::said, Origin::model, Origin::workshop};
    std::vector<BookText> texts;
    for (std::size_t i = 0; i < 3; ++i)
      texts.push_back(layers::text_of(
          "endband = 1\n" +
          (says[i] ? std::string(row.path) + " = \"1" + std::to_string(i) + " mm\"\n" : std::string())));
    BookText const base = layers::text_of(layers::habits);
    BookText const model = *model_text("raised-cords");
    std::vector<Layer> list;
    for (std::size_t i = 0; i < 3; ++i) list.push_back({&texts[i], origins[i]});
    list.push_back({&base, Origin::learned});
    texts[0].entries.push_back(*model.find("height"));
    texts[0].entries.push_back(*model.find("width"));
    texts[0].entries.push_back(*model.find("pages"));
    auto const spec = resolve(list, catalogue);
    if (!spec) RC_FAIL(layers::faults_of(spec));
    FigureId const id = row.path == "boards.square"        ? FigureId::square
                        : row.path == "sewing.slip_length" ? FigureId::slip_length
                                                           : FigureId::turn_in;
    auto const first = static_cast<std::size_t>(std::find(says.begin(), says.end(), true) - says.begin());
    if (first == 3) {
      RC_ASSERT(spec->given[id].origin == Origin::practice);
    } else {
      RC_ASSERT(spec->given[id].origin == origins[first]);
      RC_ASSERT(spec->given[id].value == 10.0 + static_cast<double>(first));
    }
  }));
}
