#include "db/cutting.h"

#include "db/stock_ledger.h"
#include "engine/money/numeral.h"

#include <array>
#include <charconv>
#include <stdexcept>
#include <string>

namespace endband::db {
namespace {

// --- plans

constexpr std::array<std::string_view, 3> outcomes{"planned", "impossible", "not-found"};

std::string text_of(PlanKey const& key) {
  std::string text;
  for (std::int64_t const number : key) {
    if (!text.empty()) text += ' ';
    text += std::to_string(number);
  }
  return text;
}

PlanKey key_in(std::string_view text) {
  PlanKey key;
  for (std::string_view const word : split(text, ' ')) {
    std::int64_t number = 0;
    auto const [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    if (error != std::errc{} || end != word.data() + word.size())
      throw StoreError(FaultCode::not_a_workshop, "key " + std::string(word));
    key.push_back(number);
  }
  return key;
}

cutting::Outcome outcome_named(std::string const& name) {
  for (std::size_t i = 0; i < outcomes.size(); ++i)
    if (outcomes[i] == name) return static_cast<cutting::Outcome>(i);
  throw StoreError(FaultCode::not_a_workshop, "plan: " + name);
}

PlanFacts read_facts(Statement& select) {
  PlanFacts facts;
  std::string outcome;
  select.read(outcome, facts.opened, facts.gross, facts.cost, facts.bound, facts.guess);
  facts.outcome = outcome_named(outcome);
  return facts;
}

// --- a shape in words: "outline 0 0 640000 0 ...; flaw ...; zone 1 ...", each but the first any number of
// times. It is a fact of the lot, like its place: it may be said anew, and undo knows it already.

void add_ring(std::string& text, std::string_view word, cutting::Polygon const& ring) {
  if (!text.empty()) text += "; ";
  text += word;
  for (cutting::Point const point : ring)
    text += ' ' + std::to_string(point.x) + ' ' + std::to_string(point.y);
}

std::string text_of(Shape const& shape) {
  if (shape.outline.size() < 3) throw std::logic_error("a shape without an area");
  std::string text;
  add_ring(text, "outline", shape.outline);
  for (cutting::Polygon const& flaw : shape.flaws) add_ring(text, "flaw", flaw);
  for (cutting::Zone const& zone : shape.zones)
    add_ring(text, "zone " + std::to_string(zone.grade), zone.polygon);
  return text;
}

[[noreturn]] void unreadable(std::string_view text) {
  throw StoreError(FaultCode::not_a_workshop, "lot_fact: " + std::string(text.substr(0, 60)));
}

std::int64_t number_in(std::string_view text) {
  std::int64_t number = 0;
  auto const [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size()) unreadable(text);
  return number;
}

cutting::Polygon ring_of(std::span<std::string_view const> numbers) {
  cutting::Polygon ring;
  for (std::size_t i = 0; i + 1 < numbers.size(); i += 2)
    ring.push_back({number_in(numbers[i]), number_in(numbers[i + 1])});
  if (ring.size() < 3 || numbers.size() % 2 != 0)
    unreadable("a ring of " + std::to_string(numbers.size()) + " numbers");
  return ring;
}

Shape shape_in(std::string_view text) {
  Shape shape;
  for (std::string_view const part : split(text, ';')) {
    std::vector<std::string_view> const words = split(part, ' ');
    std::span<std::string_view const> const rest = std::span(words).subspan(words.empty() ? 0 : 1);
    if (words.empty() || rest.empty()) unreadable(part);
    if (words.front() == "outline")
      shape.outline = ring_of(rest);
    else if (words.front() == "flaw")
      shape.flaws.push_back(ring_of(rest));
    else if (words.front() == "zone")
      shape.zones.push_back({ring_of(rest.subspan(1)), static_cast<int>(number_in(rest.front()))});
    else
      unreadable(part);
  }
  if (shape.outline.empty()) unreadable(text);
  return shape;
}

// The outline of a skin is that of what lay there when it was measured.
bool cut_since_measured(Connection& connection, LotId lot) {
  Statement select(connection,
                   "SELECT ifnull(sum(quantity), 0) FROM movement WHERE lot = ?1 AND entry > "
                   "(SELECT max(entry) FROM lot_fact WHERE lot = ?1 AND fact = 'shape')");
  select.bind(lot.value).step();
  return select.value<std::int64_t>() < 0;
}

// Batches as numbers, in the order in which they are met; a batch nobody said matches nothing.
class Batches {
 public:
  std::int64_t number_of(std::string const& batch) {
    if (batch.empty()) return 0;
    for (std::size_t i = 0; i < known_.size(); ++i)
      if (known_[i] == batch) return static_cast<std::int64_t>(i) + 1;
    known_.push_back(batch);
    return static_cast<std::int64_t>(known_.size());
  }

 private:
  std::vector<std::string> known_;
};

}  // namespace

PlanTable find_plans(Workshop& workshop, std::span<PlanKey const> keys) {
  PlanTable found;
  for (PlanKey const& key : keys) {
    Statement select(workshop.connection(),
                     "SELECT outcome, opened, gross, cost, bound, guess FROM plan WHERE key = ?");
    if (!select.bind(text_of(key)).step()) continue;
    found.emplace(key, read_facts(select));
  }
  return found;
}

std::vector<std::int64_t> kept_plans(Workshop& workshop) {
  Statement select(workshop.connection(), "SELECT id FROM plan ORDER BY id");
  std::vector<std::int64_t> ids;
  while (select.step()) ids.push_back(select.value<std::int64_t>());
  return ids;
}

KeptPlan load_plan(Workshop& workshop, std::int64_t id) {
  Statement select(workshop.connection(),
                   "SELECT key, outcome, opened, gross, cost, bound, guess FROM plan WHERE id = ?");
  if (!select.bind(id).step()) throw std::out_of_range("no plan " + std::to_string(id));
  KeptPlan kept;
  kept.id = id;
  kept.key = key_in(select.value<std::string>());
  kept.facts = read_facts(select);
  return kept;
}

std::string_view plan_outcome_name(cutting::Outcome outcome) {
  return outcomes.at(static_cast<std::size_t>(outcome));
}

void save_plans(Writing& writing, PlanTable const& plans) {
  Statement insert(writing.workshop().connection(),
                   "INSERT INTO plan (key, outcome, opened, gross, cost, bound, guess, entry) VALUES (?, ?, "
                   "?, ?, ?, ?, ?, "
                   "?) ON CONFLICT DO NOTHING");
  for (auto const& [key, facts] : plans)
    insert
        .bind(text_of(key), plan_outcome_name(facts.outcome), facts.opened, facts.gross, facts.cost,
              facts.bound, facts.guess, writing.entry())
        .run();
}

void save_shape(Writing& writing, LotId lot, Shape const& shape) {
  say_fact(writing, lot, "shape", text_of(shape));
}

std::optional<Shape> find_shape(Workshop& workshop, LotId lot) {
  Statement select(workshop.connection(),
                   "SELECT value FROM lot_fact WHERE lot = ? AND fact = 'shape' ORDER BY id DESC LIMIT 1");
  if (!select.bind(lot.value).step()) return std::nullopt;
  std::string const text = select.value<std::string>();
  return text.empty() ? std::nullopt : std::optional(shape_in(text));
}

std::vector<Cuttable> cuttable(Workshop& workshop, Date on, std::string_view job) {
  std::vector<Cuttable> all;
  Batches batches;
  for (LotRow const& lot : lots(workshop, std::nullopt, false)) {
    bool const good = !lot.keeps_until || on <= *lot.keeps_until;
    bool const serves = lot.job.empty() || lot.job == job;
    if (lot.source == LotSource::custody || !good || !serves || lot.quantity.n <= 0) continue;
    Cuttable& one = all.emplace_back();
    one.mark = lot.mark;
    one.piece.lot = lot.id.value;
    one.piece.material = lot.material;
    one.piece.quantity = lot.quantity.n;
    one.piece.cost = checked_mul(lot.value.minor, 1000);
    one.piece.height = lot.height;
    one.piece.width = lot.width;
    if (lot.sold_by == SoldBy::skin && !cut_since_measured(workshop.connection(), lot.id))
      one.piece.shape = find_shape(workshop, lot.id);
    one.piece.batch = batches.number_of(lot.batch);
  }
  return all;
}

}  // namespace endband::db
