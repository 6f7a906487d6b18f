// Any text as the description of a book, all the way to its price: read or refused with a line, and a book
// that can be resolved can be costed to the last minor unit.
#include "db/materials.h"
#include "db/settings.h"
#include "db/steps.h"
#include "engine/commission/commission.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/workshop.h"

#include <string>
#include <string_view>
#include <vector>

using namespace endband;
using endband::fuzz::require;

namespace {

struct Shelf {
  Date on = read_date("2026-11-25").value();
  db::Workshop workshop = db::Workshop::open(fuzz::workshop_path()).value();
  db::Shop shop = db::load_shop(workshop, on).value();
  StepLibrary steps = db::load_steps(workshop, on);
};

Shelf& shelf() {
  static Shelf one;
  return one;
}

std::string said_model(BookText const& text) {
  Entry const* const entry = text.find("model");
  return entry == nullptr ? "raised-cords" : std::get<std::string>(entry->value);
}

void price_book(BookText const& text) {
  auto const model = model_text(said_model(text));
  if (!model) return;
  Shelf& from = shelf();
  std::vector<Layer> const layers{
      {&text, Origin::said}, {&*model, Origin::model}, {&from.shop.defaults, Origin::workshop}};
  auto const catalogue = db::load_catalogue(from.workshop, codes_named(layers), from.on, from.shop.buying);
  if (!catalogue) return;
  auto const book = resolve(layers, *catalogue);
  if (!book) return require(!book.error().empty(), "what is refused is told");
  Commission commission;
  commission.catalogue = *catalogue;
  commission.book = *book;
  commission.steps = from.steps;
  commission.work = from.shop.work;
  commission.shop = from.shop.shop;
  commission.selling = from.shop.selling;
  commission.goal = MarginGoal{Ratio(1, 4)};
  commission.delivery = {Money{0, from.workshop.currency()}, "collected"};
  auto const priced = price(commission);
  if (!priced) return require(!priced.error().empty(), "what is refused is told");
  FrozenQuote const frozen = freeze(commission, *priced, text.source, said_model(text));
  auto const again = replay(frozen);
  require(again && again->total == priced->offer.total, "a quote gives the same price again");
}

}  // namespace

extern "C" int LLVMFuzzerInitialize(int*, char***) { return fuzz::workshop_folder(), 0; }

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* data, std::size_t size) {
  Readable const read =
      read_readable({reinterpret_cast<char const*>(data), size}, "any.toml", description_keys());
  for (Fault const& fault : read.faults) require(fault.where.line >= 1, "a fault has a line");
  if (!read.faults.empty()) return 0;
  try {
    price_book(read.text);
  } catch (Overflow const&) {  // told as too large where a command ends
  }
  return 0;
}
