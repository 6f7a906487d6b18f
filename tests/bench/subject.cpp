#include "subject.h"

#include "db/bench.h"
#include "db/materials.h"
#include "db/settings.h"
#include "db/steps.h"
#include "db/workshop.h"

#include <fstream>
#include <sstream>
#include <stdexcept>
#include <utility>

namespace endband::bench {
namespace {

template <class T>
T known(Read<T> read, std::string const& what) {
  if (read) return std::move(*read);
  std::string message = what;
  for (Fault const& fault : read.error())
    message += "\n  " + std::string(fault_row(fault.code).name) + " " + fault.where.field + " " + fault.found;
  throw std::runtime_error(message);
}

std::string contents(std::string const& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string words(BookText const& text, std::string_view key) {
  Entry const* const entry = text.find(key);
  return entry == nullptr ? std::string() : std::get<std::string>(entry->value);
}

Money money(BookText const& text, std::string_view key, Currency currency) {
  std::string const amount = words(text, key);
  return amount.empty() ? Money{0, currency} : known(read_money(amount, currency), std::string(key));
}

std::vector<OutsideTerms> terms_of(BookSpec const& book, Currency currency) {
  std::vector<OutsideTerms> outside;
  for (OutsideWork const& work : book.outside) {
    OutsideTerms terms{work.words, known(read_money(work.price, currency), work.words), work.at_cost};
    terms.kind = work.kind;
    terms.by = work.by;
    terms.count = work.count;
    terms.area = work.area;
    terms.each_copy = work.each_copy;
    outside.push_back(std::move(terms));
  }
  return outside;
}

}  // namespace

std::vector<Layer> Subject::layers() const {
  return {{&said, Origin::said}, {&model, Origin::model}, {&defaults, Origin::workshop}};
}

Subject load_subject(std::string const& workshop_path, std::string const& book_path, Date on) {
  db::Workshop workshop = known(db::Workshop::open(workshop_path), workshop_path);
  db::Reading const reading(workshop);
  db::Shop shop = known(db::load_shop(workshop, on), "the workshop's settings");
  Subject subject;
  subject.text = contents(book_path);
  subject.said = known(read_description(subject.text, book_path, description_keys()), book_path);
  subject.model = known(model_text(words(subject.said, "model")), "its model");
  subject.defaults = std::move(shop.defaults);
  std::vector<Layer> const layers = subject.layers();
  Commission& commission = subject.commission;
  commission.catalogue =
      known(db::load_catalogue(workshop, codes_named(layers), on, shop.buying), "the materials it names");
  commission.book = known(resolve(layers, commission.catalogue), "the book");
  commission.steps = db::load_steps(workshop, on);
  commission.bench = db::load_bench(workshop, on);
  commission.work = shop.work;
  commission.shop = shop.shop;
  commission.selling = shop.selling;
  commission.goal = shop.goal.value_or(MarginGoal{Ratio(1, 4)});
  commission.delivery = {money(subject.said, "quote.carriage", workshop.currency()), "post"};
  commission.outside = terms_of(commission.book, workshop.currency());
  return subject;
}

}  // namespace endband::bench
