// A job as JSON.
#include "cli/commands/job_seen.h"
#include "cli/commands/quote_json.h"

namespace endband::cli {
namespace {

Json day_json(std::optional<Date> day) { return day ? Json(date_text(*day)) : Json(); }

Json material_json(MaterialSeen const& row) {
  return Json::Object{{"code", row.material.code},
                      {"name", row.material.name},
                      {"quoted", amount_json(row.beside.quoted)},
                      {"quoted_cost", money_json(row.beside.quoted_cost)},
                      {"taken", amount_json(row.beside.taken)},
                      {"taken_value", money_json(row.beside.taken_value)},
                      {"customer_supplied", row.customers},
                      {"without", row.without},
                      {"to_take", amount_json(row.to_take)},
                      {"set_aside", amount_json(row.set_aside)},
                      {"short_of", amount_json(row.short_of)}};
}

Json beside_json(WorkBeside const& row) {
  return Json::Object{{"step", row.operation ? Json(operation_row(*row.operation).name) : Json()},
                      {"part", row.part ? Json(part_name(*row.part)) : Json()},
                      {"words", work_words(row)},
                      {"quoted_s", row.quoted.n},
                      {"worked_s", row.worked.n}};
}

std::string_view open_name(OpenPoint what) {
  switch (what) {
    case OpenPoint::gate: return "gate";
    case OpenPoint::material: return "material";
    case OpenPoint::no_time: return "no-time";
    case OpenPoint::outside: return "outside";
    case OpenPoint::custody: return "custody";
  }
  return {};
}

Json open_json(StillOpen const& open) {
  return Json::Object{{"what", open_name(open.what)}, {"name", open.name}, {"words", open_words(open)}};
}

Json gate_json(Gate const& gate) {
  return Json::Object{{"name", gate.name}, {"since", date_text(gate.since)}};
}

Json billed_json(Billed const& bill) {
  return Json::Object{{"words", bill.words}, {"price", money_json(bill.price)}};
}

}  // namespace

Json job_json(db::JobHeader const& job) {
  return Json::Object{{"number", job.number},
                      {"quote", db::number_text(job.quote.number)},
                      {"customer", job.quote.customer},
                      {"customer_name", job.quote.customer_name},
                      {"title", job.quote.title},
                      {"state", db::job_state_name(job.state)},
                      {"since", date_text(job.since)},
                      {"needed_on", day_json(job.needed_on)},
                      {"ended", day_json(job.ended)},
                      {"price", money_json(job.price)},
                      {"to_pay", money_json(job.to_pay)},
                      {"deposit", money_json(job.deposit)},
                      {"paid", money_json(job.paid)},
                      {"due", money_json(job.to_pay - job.paid)}};
}

Json cost_now_json(ActualCost const& cost) {
  return Json::Object{{"materials", money_json(cost.materials)}, {"labour", money_json(cost.labour)},
                      {"overhead", money_json(cost.overhead)},   {"outside", money_json(cost.outside)},
                      {"total", money_json(cost.total)},         {"work_s", cost.time.n}};
}

Json quoted_cost_json(CostSheet const& sheet) {
  return Json::Object{{"materials", money_json(sheet.materials)},   {"labour", money_json(sheet.labour)},
                      {"overhead", money_json(sheet.overhead)},     {"outside", money_json(sheet.outside)},
                      {"allowances", money_json(sheet.allowances)}, {"total", money_json(sheet.total)},
                      {"work_s", whole_seconds(sheet.seconds)}};
}

Json seen_json(JobSeen const& seen) {
  return Json::Object{{"job", job_json(seen.job)},
                      {"materials", json_array(seen.materials, material_json)},
                      {"work", json_array(seen.work, beside_json)},
                      {"quoted_outside", outside_json(seen.agreed)},
                      {"billed", json_array(seen.record.billed, billed_json)},
                      {"gates", json_array(seen.record.gates, gate_json)},
                      {"custody_here", seen.record.custody_here},
                      {"quoted_cost", quoted_cost_json(seen.agreed.sheet)},
                      {"cost", cost_now_json(seen.cost)},
                      {"left_quoted", money_json(seen.left_quoted())},
                      {"left_now", money_json(seen.left_now())},
                      {"still_open", json_array(seen.open, open_json)}};
}

}  // namespace endband::cli
