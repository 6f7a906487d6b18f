#include "cli/command/offered.h"

#include "db/known.h"
#include "db/settings.h"
#include "engine/book/figure.h"
#include "engine/book/operation.h"
#include "engine/book/spec.h"

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

using db::Known;

// What of the workshop's own a value may be. Of `rest` something else is added below.
struct TypeNames {
  FlagType type;
  std::vector<Known> known;
};
std::span<TypeNames const> names_of_types() {
  static std::vector<TypeNames> const table{
      {FlagType::material, {Known::material}},
      {FlagType::customer, {Known::customer}},
      {FlagType::service, {Known::service}},
      {FlagType::tax_class, {Known::tax_class}},
      {FlagType::quote, {Known::quote}},
      {FlagType::job, {Known::job}},
      {FlagType::book, {Known::job}},
      {FlagType::listing, {Known::listing}},
      {FlagType::lot, {Known::lot}},
      {FlagType::goods, {Known::lot, Known::material}},
      {FlagType::outlet, {Known::outlet}},
      {FlagType::outlets, {Known::outlet}},
      {FlagType::person, {Known::person}},
      {FlagType::people, {Known::person}},
      {FlagType::on_bench, {Known::person, Known::place}},
      {FlagType::places, {Known::place}},
      {FlagType::learnt, {Known::material}},
      {FlagType::gate, {Known::gate}},
      {FlagType::outside, {Known::outside}},
      {FlagType::lot_place, {Known::lot_place}},
      {FlagType::supplier, {Known::supplier}},
      {FlagType::entry, {Known::entry}},
  };
  return table;
}

bool is_list(FlagType type) {
  constexpr std::array lists{FlagType::codes,  FlagType::outlets, FlagType::people,
                             FlagType::places, FlagType::steps,   FlagType::learnt};
  return std::ranges::find(lists, type) != lists.end();
}

class Offering {
 public:
  Offering(std::string_view typed, db::Workshop* workshop) : typed_(typed), workshop_(workshop) {}

  std::vector<Offer> of(FlagType type) {
    for (std::string_view const name : choices(type)) add(name, meaning(type, name));
    for (TypeNames const& row : names_of_types())
      if (row.type == type)
        for (Known const what : row.known) add_known(what);
    add_others(type);
    return std::move(offers_);
  }

 private:
  static std::string_view meaning(FlagType type, std::string_view name) {
    if (type == FlagType::operation) return operation_row(*operation_named(name)).what;
    if (type == FlagType::model)
      for (Model const& model : models())
        if (model.name == name) return model.what;
    return {};
  }

  void add(std::string_view word, std::string_view about) {
    if (word.starts_with(typed_)) offers_.push_back({std::string(word), std::string(about)});
  }

  void add_known(Known what) {
    if (workshop_ == nullptr) return;
    for (db::KnownName& name : db::known_names(*workshop_, what, typed_))
      offers_.push_back({std::move(name.word), std::move(name.about)});
  }

  void add_steps(std::string_view before = {}) {
    for (std::string_view const name : choices(FlagType::operation))
      add(std::string(before) + std::string(name), meaning(FlagType::operation, name));
  }

  void add_part(Part part) {
    std::string name(part_name(part));
    std::ranges::replace(name, ' ', '-');
    add(name, "a part of the book");
  }

  void add_others(FlagType type) {
    switch (type) {
      case FlagType::person: add("everyone", "nobody works"); break;
      case FlagType::outlet: add("own", "by the workshop itself"); break;
      case FlagType::outlets: add("all", "every outlet"); break;
      case FlagType::steps: add_steps(); break;
      case FlagType::learnt:
        add("enquiries", "enquiries for each order");
        add_steps();
        break;
      case FlagType::worked:
        for (std::size_t i = 0; i <= static_cast<std::size_t>(Part::repairs); ++i)
          add_part(static_cast<Part>(i));
        add_steps();
        break;
      case FlagType::figure:
        for (std::size_t i = 0; i < figure_count; ++i) {
          FigureRow const& row = figure_row(static_cast<FigureId>(i));
          add(row.name, row.words);
        }
        break;
      case FlagType::setting: add_settings(); break;
      case FlagType::supposition: add_suppositions(); break;
      default: break;
    }
  }

  // "tax.mode=", and then what it may be; of a family the names that were ever set, and its beginning.
  void add_settings() {
    std::size_t const equals = typed_.find('=');
    for (db::SettingRow const& row : db::setting_table()) {
      bool const family = row.name.ends_with('*');
      std::string const name(family ? row.name.substr(0, row.name.size() - 1) : row.name);
      if (equals == std::string_view::npos)
        add(family ? name : name + "=", row.help);
      else if (typed_.substr(0, equals) == row.name)
        add_values(row);
    }
    if (equals != std::string_view::npos) return;
    for (KeyRow const& key : description_keys()) add_of_family("default." + std::string(key.path), key.help);
    if (workshop_ == nullptr) return;
    for (db::KnownName const& name : db::known_names(*workshop_, Known::setting, typed_))
      if (db::SettingRow const* const row = db::setting_row(name.word);
          row != nullptr && row->name.ends_with('*'))
        add_of_family(name.word, row->help);
  }

  void add_values(db::SettingRow const& row) {
    std::string_view rest = row.choices;
    while (!rest.empty()) {
      std::size_t const end = std::min(rest.find('|'), rest.size());
      add(std::string(row.name) + "=" + std::string(rest.substr(0, end)), "");
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
  }

  // There are very many: only once the family is typed.
  void add_of_family(std::string const& name, std::string_view about) {
    if (typed_.find('.') == std::string_view::npos ||
        std::ranges::any_of(offers_, [&](Offer const& offer) { return offer.word == name + "="; }))
      return;
    add(name + "=", about);
  }

  void add_suppositions() {
    if (typed_.find('=') != std::string_view::npos) return;
    std::size_t const before = offers_.size();
    add_known(Known::material);
    for (std::size_t i = before; i < offers_.size(); ++i) offers_[i].word += "=";
    add("rate=", "what an hour is paid");
    add("overhead=", "the overhead of an hour");
    if (typed_.starts_with("step."))
      for (std::string_view const name : choices(FlagType::operation))
        add("step." + std::string(name) + "=", meaning(FlagType::operation, name));
  }

  std::string_view typed_;
  db::Workshop* workshop_;
  std::vector<Offer> offers_;
};

}  // namespace

std::vector<Offer> offered(FlagType type, std::string_view typed, db::Workshop* workshop) {
  if (!is_list(type)) return Offering(typed, workshop).of(type);
  std::size_t const last = typed.find_last_of(" ,");
  std::string_view const before = last == std::string_view::npos ? "" : typed.substr(0, last + 1);
  std::vector<Offer> offers = Offering(typed.substr(before.size()), workshop).of(type);
  for (Offer& offer : offers) offer.word.insert(0, before);
  return offers;
}

}  // namespace endband::cli
