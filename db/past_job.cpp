// What one job took, day by day, and what its sale really took.
#include "db/job_rows.h"
#include "db/materials.h"
#include "db/past.h"
#include "db/statement.h"

#include <array>
#include <map>
#include <stdexcept>

namespace endband::db {
namespace {

constexpr std::array<std::string_view, sale_kinds> kind_names{"fees", "carriage", "exchange", "returned",
                                                              "tax"};

std::optional<Money> sum_told(Workshop& workshop, std::int64_t job, SaleKind kind) {
  static std::string const sql =
      "SELECT sum(amount) FROM job_sale x WHERE job = ? AND kind = ? AND " + standing("job_sale", "x");
  Statement select(workshop.connection(), sql);
  if (!select.bind(job, sale_kind_name(kind)).step()) return std::nullopt;
  return select.value<std::optional<Money>>();
}

// Landed price of each material on each day; none where nothing said what it cost then.
class PricesOfDays {
 public:
  PricesOfDays(Workshop& workshop, BuyingRules const& buying) : workshop_(workshop), buying_(buying) {}

  std::optional<UnitCost> of(MaterialId id, Date on) {
    auto const found = days_.find(on);
    auto const& materials =
        found != days_.end() ? found->second
                             : days_.emplace(on, list_materials(workshop_, on, std::nullopt)).first->second;
    for (Material const& material : materials)
      if (material.id == id && material.price) return unit_cost(material, buying_);
    return std::nullopt;
  }

 private:
  Workshop& workshop_;
  BuyingRules const& buying_;
  std::map<Date, std::vector<Material>> days_;
};

}  // namespace

std::string_view sale_kind_name(SaleKind kind) { return kind_names.at(static_cast<std::size_t>(kind)); }

Read<std::int64_t> add_sale(Writing& writing, JobHeader const& job, SaleKind kind, Money amount, Date on,
                            std::string_view words) {
  Workshop& workshop = writing.workshop();
  if (auto fault = changed(workshop, job, "sold")) return refuse(*std::move(fault));
  std::string const field = kind == SaleKind::tax ? "--tax-paid" : "--" + std::string(sale_kind_name(kind));
  if (job.state == JobState::cancelled)
    return refuse(job_refused("sold", field, job.number, "it was called off, and nothing was sold"));
  Money const told = sum_told(workshop, job.id, kind).value_or(Money{0, amount.currency});
  if ((told + amount).minor < 0)
    return refuse({FaultCode::out_of_range,
                   {"job sold", 0, 0, field},
                   money_text(amount),
                   "no more taken back than the " + money_text(told) + " told",
                   {}});
  Statement insert(
      workshop.connection(),
      "INSERT INTO job_sale (job, kind, amount, on_date, words, entry) VALUES (?, ?, ?, ?, ?, ?)");
  return insert.bind(job.id, sale_kind_name(kind), amount, on, words, writing.entry()).insert();
}

SaleTaken load_sale(Workshop& workshop, JobHeader const& job) {
  auto const told = [&](SaleKind kind) { return sum_told(workshop, job.id, kind); };
  return {told(SaleKind::fees), told(SaleKind::carriage), told(SaleKind::exchange), told(SaleKind::returned),
          told(SaleKind::tax)};
}

std::vector<TakenOn> load_taken_on(Workshop& workshop, JobHeader const& job, BuyingRules const& buying) {
  Statement select(
      workshop.connection(),
      "SELECT material, on_date, -sum(quantity), -sum(iif(kind = 'spoiled', quantity, 0)), "
      "-sum(value) FROM movement WHERE job = ? AND kind IN ('used', 'cut-away', 'spoiled', 'kept') "
      "GROUP BY material, on_date ORDER BY material, on_date");
  select.bind(job.id);
  std::vector<TakenOn> taken;
  while (select.step()) {
    TakenOn& of = taken.emplace_back();
    select.read(of.material, of.on, of.quantity, of.spoiled, of.value);
  }
  PricesOfDays prices(workshop, buying);
  for (TakenOn& of : taken) of.price = prices.of(of.material, of.on);
  return taken;
}

AgreedFirst load_agreed_first(Workshop& workshop, JobHeader const& job) {
  static std::string const sql =
      "SELECT a.price, o.money_left FROM job_agreed a JOIN quote_offer o ON o.quote = a.quote WHERE a.job = "
      "? AND " +
      standing("job_agreed", "a") + " ORDER BY a.id LIMIT 1";
  Statement select(workshop.connection(), sql);
  if (!select.bind(job.id).step()) throw std::out_of_range("a job that nothing was agreed on");
  AgreedFirst first;
  select.read(first.price, first.left);
  return first;
}

Absorbed load_absorbed(Workshop& workshop, Date from, Date to) {
  static std::string const sql =
      "SELECT count(*), ifnull(sum(r.overhead), 0), ifnull(sum(r.seconds), 0) FROM job_event e JOIN "
      "job_result r ON "
      "r.job = e.job AND r.entry = e.entry AND r.undoes IS NULL WHERE e.event IN ('finished', 'cancelled') "
      "AND "
      "e.on_date BETWEEN ?1 AND ?2 AND " +
      standing("job_event", "e");
  Statement select(workshop.connection(), sql);
  Absorbed absorbed;
  if (select.bind(from, to).step()) select.read(absorbed.jobs, absorbed.overhead, absorbed.time);
  return absorbed;
}

std::optional<Date> first_year_set(Workshop& workshop) {
  Statement select(workshop.connection(),
                   "SELECT min(valid_from) FROM setting_version WHERE name = 'year.hours'");
  if (!select.step()) return std::nullopt;
  return select.value<std::optional<Date>>();
}

std::vector<std::vector<InForceFrom>> load_overheads(Workshop& workshop) {
  Statement select(
      workshop.connection(),
      "SELECT name, valid_from, value FROM setting_version v WHERE name LIKE 'overhead.%' AND id = "
      "(SELECT max(id) FROM setting_version l WHERE l.name = v.name AND l.valid_from = v.valid_from) "
      "ORDER BY name, valid_from");
  std::map<std::string, std::vector<InForceFrom>> sums;
  while (select.step()) {
    std::string name, value;
    InForceFrom from;
    select.read(name, from.from, value);
    from.a_year = {0, workshop.currency()};
    if (!value.empty()) from.a_year = read_money(value, workshop.currency()).value();
    sums[name].push_back(from);
  }
  std::vector<std::vector<InForceFrom>> result;
  for (auto& each : sums) result.push_back(std::move(each.second));
  return result;
}

}  // namespace endband::db
