// The day named, in words and in JSON.
#include "cli/commands/promised.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <cmath>

namespace endband::cli {
namespace {

// "never" and "always" are not said of a chance.
std::string chance_words(double chance) {
  int const of_a_hundred = static_cast<int>(std::lround(chance * 100));
  if (of_a_hundred <= 0) return "less than 1 in 100";
  if (of_a_hundred >= 100) return "more than 99 in 100";
  return fmt::format("{} in 100", of_a_hundred);
}

void add_ways(Document& document, Promised const& promised, Date by) {
  Rush const& rush = *promised.rush;
  if (rush.stands) {
    document.paragraph(fmt::format("Asked for by {}: it can be done as the bench stands.", date_text(by)));
    return;
  }
  document.paragraph(fmt::format("Asked for by {}: as the bench stands {} that it is ready.", date_text(by),
                                 chance_words(rush.chance)));
  if (rush.overtime)
    document.paragraph(fmt::format(
        "{} {} of overtime a day until then {}: {} in all, which cost {} over plain hours{}.",
        promised.overtime_charged ? "With up to" : "Up to", hours_words(Ratio(rush.overtime->a_day.n)),
        promised.overtime_charged ? "it is sure" : "makes it sure",
        hours_words(Ratio(rush.overtime->in_all.n)), money_words(*promised.overtime_costs),
        promised.overtime_charged ? " and are in the price" : "; --rush puts them in the price"));
  else
    document.paragraph("No overtime that the bench allows makes it sure.");
  if (promised.planned.seen.orders.size() == 1) return;
  std::string first =
      fmt::format("Before all other work it would be ready by {}", date_text(rush.sure_if_first));
  if (promised.gives_way.empty())
    first += ", and no job would miss its day.";
  else
    first += fmt::format("; then {} would miss {}:", promised.gives_way.size() == 1 ? "a job" : "jobs",
                         promised.gives_way.size() == 1 ? "its day" : "their days");
  document.paragraph(std::move(first));
  if (promised.gives_way.empty()) return;
  Table table{{{"Job"},
               {"Title", Align::left, 1},
               {"Due"},
               {"Ready then"},
               {fmt::format("Leaves {}", promised.gives_way.front().left.currency.code()), Align::decimal},
               {"An hour earns", Align::decimal, 2}},
              {}};
  for (GivesWay const& job : promised.gives_way)
    table.add({job.job, job.title, date_text(job.due), date_text(job.becomes), money_text(job.left),
               money_text(job.an_hour)});
  document.add(std::move(table));
}

}  // namespace

void add_promise(Document& document, std::optional<Promised> const& promised) {
  if (!promised) {
    document.notice(NoticeKind::note,
                    "No day is named: nobody's hours are known. endband bench set CODE --hours \"Mon-Fri "
                    "09:00-12:30 13:30-17:00\"");
    return;
  }
  Promise const& dates = promised->dates;
  document.heading("Ready by", 2);
  document.paragraph(fmt::format(
      "To send by {} in 95 of 100 cases, by {} in 80, as likely as not by {}; not before {}. "
      "Counted from {}, if the customer's word{} there then.",
      date_text(dates.sure), date_text(dates.four_fifths), date_text(dates.half), date_text(dates.earliest),
      date_text(dates.starts), promised->needs_proof ? " and the approved proof are" : " is"));
  document.paragraph(chain_words(promised->planned, promised->order()));
  if (promised->rush) add_ways(document, *promised, *dates.asked_by);
  add_unknown_leads(document, promised->planned.seen);
}

Json promise_json(std::optional<Promised> const& promised) {
  if (!promised) return {};
  Promise const& dates = promised->dates;
  Json rush;
  if (promised->rush) {
    Rush const& way = *promised->rush;
    auto const gives_way = [](GivesWay const& job) {
      return Json(Json::Object{{"job", job.job},
                               {"due", date_text(job.due)},
                               {"ready", date_text(job.becomes)},
                               {"left", money_json(job.left)},
                               {"an_hour", money_json(job.an_hour)}});
    };
    rush = Json::Object{{"can_be_done", way.stands},
                        {"chance_permille", std::int64_t{std::lround(way.chance * 1000)}},
                        {"overtime_a_day_s", way.overtime ? Json(way.overtime->a_day.n) : Json()},
                        {"overtime_s", way.overtime ? Json(way.overtime->in_all.n) : Json()},
                        {"overtime_costs", money_json(promised->overtime_costs)},
                        {"overtime_charged", promised->overtime_charged},
                        {"ready_if_first", date_text(way.sure_if_first)},
                        {"gives_way", json_array(promised->gives_way, gives_way)}};
  }
  return Json::Object{{"starts", date_text(dates.starts)},
                      {"asked_by", dates.asked_by ? Json(date_text(*dates.asked_by)) : Json()},
                      {"earliest", date_text(dates.earliest)},
                      {"ready_50", date_text(dates.half)},
                      {"ready_80", date_text(dates.four_fifths)},
                      {"ready_95", date_text(dates.sure)},
                      {"why", chain_words(promised->planned, promised->order())},
                      {"unknown_lead_days", json_words(promised->planned.seen.unknown_leads)},
                      {"rush", std::move(rush)}};
}

}  // namespace endband::cli
