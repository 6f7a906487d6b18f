// Customers: add, change, list, show.
#include "cli/commands/commands.h"
#include "cli/commands/customer_record.h"

#include <fmt/format.h>

namespace endband::cli {
namespace {

Changed changed(Context const& context, Deed deed, db::Customer const& before, db::Customer const& after) {
  return {.deed = deed,
          .noun = "customer",
          .code = after.code,
          .changes = changes_between(deed == Deed::added ? Fields{} : fields_of(before), fields_of(after)),
          .from = {},
          .dry_run = context.dry_run,
          .next = "endband quote make book.toml --customer " + after.code};
}

Read<Answer> run_add(Context& context, Args const& args) {
  auto const customer = customer_said(args, args.word(0), context.on);
  if (!customer) return tl::unexpected(customer.error());
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const added = in_one_writing(
      context, **workshop, [&](db::Writing& writing) { return db::add_customer(writing, *customer); });
  if (!added) return tl::unexpected(added.error());
  return Answer(changed(context, Deed::added, {}, *customer));
}

Read<Answer> run_change(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto const before = db::find_customer(**workshop, args.word(0));
  if (!before) return tl::unexpected(before.error());
  db::Customer const after = customer_changed(args, *before);
  Changed view = changed(context, Deed::changed, *before, after);
  if (view.changes.empty()) return Answer(std::move(view));
  auto const done = in_one_writing(context, **workshop,
                                   [&](db::Writing& writing) { return db::change_customer(writing, after); });
  if (!done) return tl::unexpected(done.error());
  return Answer(std::move(view));
}

struct CustomerList {
  std::vector<db::Customer> customers;
};

Json customer_json(db::Customer const& customer) {
  return Json::Object{{"code", customer.code},
                      {"name", customer.name},
                      {"email", customer.email},
                      {"address", customer.address},
                      {"country", customer.country},
                      {"notes", customer.notes},
                      {"since", date_text(customer.since)}};
}

Json to_json(CustomerList const& view) {
  return Json::Object{{"customers", json_array(view.customers, customer_json)}};
}

Document to_document(CustomerList const& view) {
  Document document;
  Table table{
      {{"Code"}, {"Name"}, {"Email", Align::left, 2}, {"Country", Align::left, 1}, {"Since", Align::left, 3}},
      {}};
  for (db::Customer const& customer : view.customers)
    table.add({customer.code, customer.name, customer.email, customer.country, date_text(customer.since)});
  if (table.rows.empty())
    document.paragraph("No customers yet.").next("endband customer add CODE --name \"...\"");
  else
    document.add(std::move(table));
  return document;
}

Read<Answer> run_list(Context& context, Args const&) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  return Answer(CustomerList{db::list_customers(**workshop)});
}

struct CustomerCard {
  db::Customer customer;
};

Json to_json(CustomerCard const& view) { return Json::Object{{"customer", customer_json(view.customer)}}; }

Document to_document(CustomerCard const& view) {
  Document document;
  document.heading(view.customer.name);
  KeyValues rows;
  rows.rows.emplace_back("Code", view.customer.code);
  if (!view.customer.email.empty()) rows.rows.emplace_back("Email", view.customer.email);
  if (!view.customer.address.empty()) rows.rows.emplace_back("Address", view.customer.address);
  if (!view.customer.country.empty()) rows.rows.emplace_back("Country", view.customer.country);
  if (!view.customer.notes.empty()) rows.rows.emplace_back("Notes", view.customer.notes);
  rows.rows.emplace_back("Since", date_text(view.customer.since));
  document.add(std::move(rows));
  document.next("endband quote list --customer " + view.customer.code);
  return document;
}

Read<Answer> run_show(Context& context, Args const& args) {
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto customer = db::find_customer(**workshop, args.word(0));
  if (!customer) return tl::unexpected(customer.error());
  return Answer(CustomerCard{std::move(*customer)});
}

constexpr Word code_word{"CODE", FlagType::customer, "the customer's code, such as otter-stage"};
constexpr Word new_code{"CODE", FlagType::code, code_word.help};

}  // namespace

Command customer_add() {
  return {
      .noun = "customer",
      .verb = "add",
      .summary = "Add a customer",
      .about = "Names and addresses live apart from quotes, which carry only the code.",
      .words = {new_code},
      .flags = customer_flags(),
      .examples =
          {"customer add mira-holt --name \"Mira Holt\" --email mira@example.org --country AT",
           "customer add north-pier --name \"North Pier Theatre\" --notes \"pays by transfer\" --dry-run"},
      .refused_when = "the code is taken",
      .writes = true,
      .lists = false,
      .run = run_add};
}

Command customer_change() {
  return {.noun = "customer",
          .verb = "change",
          .summary = "Change what is kept of a customer",
          .about = "Only what is named changes; an empty value takes it away.",
          .words = {code_word},
          .flags = customer_flags(),
          .examples = {"customer change ida-quill --email studio@quill.example.org",
                       "customer change penhallow --notes \"\" --dry-run"},
          .refused_when = "",
          .writes = true,
          .lists = false,
          .run = run_change};
}

Command customer_list() {
  return {.noun = "customer",
          .verb = "list",
          .summary = "List the customers",
          .about = "",
          .words = {},
          .flags = {},
          .examples = {"customer list", "customer list --jsonl"},
          .refused_when = "",
          .writes = false,
          .lists = true,
          .run = run_list};
}

Command customer_show() {
  return {.noun = "customer",
          .verb = "show",
          .summary = "Show what is kept of a customer",
          .about = "",
          .words = {code_word},
          .flags = {},
          .examples = {"customer show ida-quill", "customer show yuki-arden --json"},
          .refused_when = "",
          .writes = false,
          .lists = false,
          .run = run_show};
}

}  // namespace endband::cli
