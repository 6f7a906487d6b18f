// A workshop with one quote of laid paper and gilding by another's hands, from 2026-11-25 until 2026-12-31,
// and what tests of quotes that move on and of jobs do with it.
#pragma once

#include "db/connection.h"
#include "db/jobs.h"
#include "db/undo.h"
#include "tests/db/any_quote.h"
#include "tests/db/bench.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>

namespace endband::db::test {

inline constexpr auto sewing = OperationKind::sew_sections;

struct JobBench {
  Folder folder;
  Workshop workshop = new_workshop(folder.file("workshop.db"));
  FrozenQuote frozen;
  QuoteHeader quote;
  explicit JobBench(std::string_view customer = "otter-stage") {
    stock_workshop(workshop);
    frozen = any_quote(workshop, 7);
    frozen.on = day("2026-11-25");
    frozen.rules = first_rules_of_orders;
    frozen.promise.reset();  // what those rules do not keep
    frozen.simulated.reset();
    frozen.shop.simulated_contingency.reset();
    frozen.shop.overtime_seconds = frozen.shop.overtime_share = Ratio(0);
    for (WorkLine& line : frozen.work.lines) line.rate.reset();
    frozen.custody.clear();
    frozen.outside = {{"edge gilding", eur(40'00), true}};
    frozen.outside[0].each = eur(40'00);
    frozen.outside[0].least_charge = frozen.outside[0].carriage = eur(0);
    frozen.shop.basis = {eur(26'400'00), eur(0), eur(12'000'00), {1'200 * 3600}};  // 22.00 and 10.00 an hour
    frozen.selling = {{1, 0}, {TaxMode::included, Ratio(19, 100), "VAT"}, {Ratio(40, 100), 100}};
    for (BillLine& line : frozen.bill.lines) line.customer_supplied = false;
    price();
    quote = test::write(
        workshop, [&](Writing& writing) { return save_quote(writing, customer, until, frozen).value(); });
  }

  Date const until = day("2026-12-31");

  void price() {
    for (BillLine& line : frozen.bill.lines)
      line.unit = unit_cost(*std::find_if(frozen.materials.begin(), frozen.materials.end(),
                                          [&](Material const& each) { return each.id == line.material; }),
                            {});
    frozen.sheet = cost(frozen.bill, frozen.work, frozen.outside, frozen.shop);
    frozen.offer = offer(frozen.sheet, frozen.delivery, frozen.selling, frozen.goal, frozen.shop).value();
    RepairTerms const terms{frozen.bill,     frozen.work,    frozen.outside, frozen.shop,
                            frozen.delivery, frozen.selling, frozen.goal};
    frozen.repairs = repair_range(terms, frozen.offer, Ratio(1, 5)).value();
    frozen.copy_prices = {
        {frozen.copies, frozen.offer.goods_shown, frozen.sheet.total, frozen.sheet.seconds}};
  }

  template <class Change>
  auto write(Change&& change) {
    return test::write(workshop, std::forward<Change>(change));
  }
  // The first fault's place and reason; nothing is kept of what was refused.
  template <class Change>
  std::string refusal(Change&& change) {
    Writing writing(workshop, info());
    auto const result = change(writing);
    if (result.has_value()) return "";
    Fault const& fault = result.error().front();
    return std::string(fault_row(fault.code).name) + ", " + fault.where.field + ": " + fault.found + ": " +
           fault.expected;
  }

  void take_back() {  // the newest entry
    EntryInfo entry = info("workshop undo");
    entry.undoes = last_entry();
    Writing writing(workshop, entry);
    (void)undo(writing, entry.undoes).value();
    writing.commit();
  }
  AcceptedJob accept(std::optional<Date> needed_on = std::nullopt) {
    return write(
        [&](Writing& writing) { return quote_accept(writing, quote, day("2026-11-26"), needed_on).value(); });
  }
  QuoteHeader revise(QuoteHeader const& of) {
    return write([&](Writing& writing) { return save_issue(writing, of, until, frozen).value(); });
  }
  JobHeader job() { return find_job(workshop, "26-001").value(); }
  QuoteState state(QuoteHeader const& of, std::string_view on = "2026-11-26") {
    return quote_state(workshop, of.id, of.valid_until, day(on));
  }
  std::int64_t reserved() {
    return workshop.connection()
        .database.execAndGet("SELECT ifnull(sum(quantity), 0) FROM reserved")
        .getInt64();
  }

  std::int64_t last_entry() {
    return workshop.connection().database.execAndGet("SELECT max(seq) FROM entry").getInt64();
  }
  std::int64_t needs(std::string_view code) {  // by the bill
    MaterialId const id = find_material(workshop, code, day("2026-11-25")).value().id;
    for (BillLine const& line : frozen.bill.lines)
      if (line.material == id) return needed(line).n;
    return 0;
  }
  // A lot of laid-120 as it would have been received; of the customer's when `owner` says so.
  void lay_down(std::int64_t sheets, std::int64_t cents, std::string const& owner = "NULL",
                std::string const& job = "NULL") {
    std::string const entry = std::to_string(last_entry());
    std::string const custody = owner == "NULL" ? "" : "custody";
    SQLite::Database& database = workshop.connection().database;
    database.exec(
        "INSERT INTO lot (mark, number, material, dimension, source, costed, on_date, owner, job, said, "
        "said_price, price, carriage, duty, tax, tax_borne, batch, shade, entry) "
        "SELECT 'L', ifnull(max(l.number), 0) + 1, m.id, 'count', iif('" +
        custody + "' = '', 'received', 'custody'), 'own', '2026-11-20', " + owner + ", " + job +
        ", '', 0, 0, 0, 0, 0, 0, '', '', " + entry +
        " FROM material m LEFT JOIN lot l ON TRUE WHERE m.code = 'laid-120'");
    move("received", sheets * 1000, cents, "NULL", custody);
    if (job != "NULL")
      database.exec(
          "INSERT INTO reservation (job, material, lot, quantity, entry) SELECT job, material, id, " +
          std::to_string(sheets * 1000) + ", entry FROM lot WHERE job = " + job);
  }
  void move(std::string const& kind, std::int64_t thousandths, std::int64_t cents, std::string const& job,
            std::string const& instead = "") {
    workshop.connection().database.exec(
        "INSERT INTO movement (on_date, lot, material, kind, quantity, value, job, reason, entry) "
        "SELECT '2026-11-27', max(id), material, '" +
        (instead.empty() ? kind : instead) + "', " + std::to_string(thousandths) + ", " +
        std::to_string(cents) + ", " + job + ", '', " + std::to_string(last_entry()) + " FROM lot");
  }

  std::string damage() {
    std::string text;
    for (Fault const& fault : check(workshop))
      text += fault.where.source + " " + fault.where.field + ": " + fault.found + "; ";
    return text;
  }
  // Whatever keeps the job from being finished.
  void close() {
    JobHeader const of = job();
    write([&](Writing& writing) {
      for (BillLine const& line : frozen.bill.lines)
        for (Material const& material : frozen.materials)
          if (material.id == line.material && needed(line).n > 0)
            (void)say_without(writing, of, material.code).value();
      (void)add_time(writing, of, sewing, std::nullopt, Duration{7200}, std::nullopt, day("2026-11-27"), "")
          .value();
      return add_billed(writing, of, "edge gilding", eur(41'50), day("2026-11-28")).value();
    });
  }
};

}  // namespace endband::db::test
