// What a job takes: goods of the shelf, or work by others; or what it turns out to be without.
#include "cli/commands/commands.h"
#include "cli/commands/job_taking.h"
#include "cli/commands/stock_parts.h"
#include "cli/words/values.h"
#include "db/materials.h"

#include <fmt/format.h>

#include <algorithm>

namespace endband::cli {
namespace {

struct Taken {
  Taking taking;
  std::vector<Posting> postings;
};

struct Used {
  db::JobHeader job;
  std::vector<Taken> taken;
  std::vector<Lack> lacks;          // with --dry-run: why it would be refused
  std::vector<std::string> opened;  // what is left of these is cut away until it is said to be kept
  std::vector<db::LotRow> lots;     // of what was taken
  std::vector<db::ShelfRow> shelf;  // after it
  std::optional<Billed> billed;
  std::string without;  // a code
  ActualCost cost;      // after it
  bool as_quoted = false, dry_run = false;
};

Money worth_of(Taken const& taken, Currency currency) {
  Money worth{0, currency};
  for (Posting const& posting : taken.postings) worth += Money{posting.value, currency};
  return worth;
}

Json to_json(Used const& view) {
  Currency const currency = view.job.price.currency;
  auto const taken_json = [&](Taken const& taken) {
    auto const posting = [&](Posting const& each) { return posting_json(each, view.lots, currency); };
    return Json(Json::Object{{"code", taken.taking.code},
                             {"kind", movement_name(taken.taking.kind)},
                             {"quantity", amount_json(taken.taking.quantity)},
                             {"worth", money_json(worth_of(taken, currency))},
                             {"postings", json_array(taken.postings, posting)}});
  };
  auto const lack_json = [](Lack const& lack) {
    return Json(Json::Object{
        {"code", lack.code}, {"wanted", amount_json(lack.wanted)}, {"there", amount_json(lack.there)}});
  };
  Json billed;
  if (view.billed)
    billed = Json::Object{{"words", view.billed->words}, {"price", money_json(view.billed->price)}};
  return Json::Object{{"dry_run", view.dry_run},
                      {"job", job_json(view.job)},
                      {"taken", json_array(view.taken, taken_json)},
                      {"short", json_array(view.lacks, lack_json)},
                      {"opened", json_words(view.opened)},
                      {"billed", std::move(billed)},
                      {"without", view.without.empty() ? Json() : Json(view.without)},
                      {"cost", cost_now_json(view.cost)},
                      {"on_shelf", json_array(view.shelf, on_shelf_json)}};
}

std::string lots_words(Used const& view, Taken const& taken) {
  std::vector<std::string> marks;
  for (Posting const& posting : taken.postings)
    if (db::LotRow const* const lot = lot_of(posting.lot, view.lots)) marks.push_back(lot_text(*lot));
  return listed(marks);
}

void add_taken(Document& document, Used const& view) {
  Currency const currency = view.job.price.currency;
  Table table{{{"Material"},
               {"As"},
               {"Quantity", Align::right},
               {fmt::format("Worth {}", currency.code()), Align::decimal},
               {"From", Align::left}},
              {}};
  Money sum{0, currency};
  for (Taken const& taken : view.taken) {
    Money const worth = worth_of(taken, currency);
    sum += worth;
    table.add({taken.taking.code, std::string(movement_name(taken.taking.kind)),
               sold_words(taken.taking.quantity, taken.taking.sold_by), money_text(worth),
               lots_words(view, taken)});
  }
  if (table.rows.size() > 1) table.add_total({"Together", "", "", money_text(sum), ""});
  if (!table.rows.empty()) document.add(std::move(table));
}

void add_lacks(Document& document, Used const& view) {
  if (view.lacks.empty()) return;
  Table table{{{"Short"}, {"Wanted", Align::right}, {"There for it", Align::right}}, {}};
  for (Lack const& lack : view.lacks)
    table.add({lack.code, sold_words(lack.wanted, lack.sold_by), sold_words(lack.there, lack.sold_by)});
  document.add(std::move(table));
  document.notice(NoticeKind::warning,
                  "Without --dry-run this is refused whole: nothing is taken while any of it is short.");
}

Document to_document(Used const& view) {
  Document document;
  document.heading(job_title(view.job));
  if (view.billed)
    document.paragraph(fmt::format("Billed: {}, {}.", view.billed->words, money_words(view.billed->price)));
  if (!view.without.empty()) document.paragraph("Without " + view.without + ": finish does not ask for it.");
  if (view.as_quoted && view.taken.empty() && view.lacks.empty())
    document.paragraph("Nothing to take: all that was quoted is taken.");
  add_taken(document, view);
  add_lacks(document, view);
  add_on_shelf(document, view.shelf, view.job.price.currency);
  for (std::string const& code : view.opened)
    document.notice(
        NoticeKind::note,
        fmt::format(
            "What is left of {1} counts as cut away. What is worth keeping goes back with: endband job "
            "return {0} {1} --offcut \"H x W mm\"",
            view.job.number, code));
  document.paragraph(fmt::format("Cost so far {}.{}", money_words(view.cost.total),
                                 view.dry_run ? " Nothing is saved." : ""));
  if (!view.dry_run) document.next("endband job show " + view.job.number);
  return document;
}

Fault bad(Args const& args, std::string_view field, std::string expected) {
  return {FaultCode::bad_command, args.where(field), "", std::move(expected), {}};
}

// The four things that the command does exclude one another.
Read<void> one_thing(Args const& args) {
  bool const code = args.word_count() > 1;
  std::vector<std::string> said;
  for (std::string_view const flag : {"--as-quoted", "--without", "--outside"})
    if (args.has(flag)) said.emplace_back(flag);
  std::vector<Fault> faults;
  auto const both = [&](std::string const& found, std::string expected) {
    faults.push_back({FaultCode::contradiction, args.where(found), found, std::move(expected), {}});
  };
  if (said.size() > 1) both(listed(said), "one of them");
  if (args.has("--spoiled") && args.has("--cut-away")) both("--spoiled and --cut-away", "one of them");
  if (!said.empty() && (args.has("--spoiled") || args.has("--cut-away") || args.has("--lot")))
    both(said.front() + " with a lot, --spoiled or --cut-away",
         "these only with a material and its quantity");
  if (args.has("--as-quoted") && code) both("--as-quoted with a material", "one of the two");
  if (args.has("--outside") && code) both("--outside with a material", "one of the two");
  if (args.has("--without") && args.word_count() > 2) both("--without with a quantity", "the material alone");
  if (args.has("--outside") != args.has("--price"))
    faults.push_back(bad(args, args.has("--outside") ? "--price" : "--outside", "work by others takes both"));
  if (args.has("--without") && !code) faults.push_back(bad(args, "CODE", "the material that it is without"));
  if (said.empty() && !args.has("--price") && !code)
    faults.push_back(bad(args, "CODE", "a material and its quantity, or --as-quoted"));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return {};
}

// The quantity that was said; of a lot alone, all that is left of it.
Read<Taking> taking_said(db::Workshop& workshop, Args const& args, Date on) {
  auto const material = material_meant(workshop, args.word(1), on, args.where("CODE"));
  if (!material) return tl::unexpected(material.error());
  Taking taking{material->code, args.text("--lot").value_or(""), material->sold_by, {}, MovementKind::used};
  if (read_mark(args.word(1)) && taking.lot.empty()) taking.lot = args.word(1);
  if (args.has("--spoiled")) taking.kind = MovementKind::spoiled;
  if (args.has("--cut-away")) taking.kind = MovementKind::cut_away;
  if (args.word_count() > 2) {
    auto const said =
        located(read_quantity_of(*material, words_from(args, 2), Least::something), args.where("QUANTITY"));
    if (!said) return tl::unexpected(said.error());
    taking.quantity = said->amount;
    return taking;
  }
  if (taking.lot.empty())
    return refuse(bad(args, "QUANTITY", quantity_example(*material) + "; only a lot can be taken whole"));
  auto const lot = located(db::find_lot(workshop, taking.lot), args.where("--lot"));
  if (!lot) return tl::unexpected(lot.error());
  if (lot->quantity.n == 0)
    return refuse({FaultCode::rule_refused, args.where("--lot"), taking.lot, "nothing is left of it", {}});
  taking.quantity = lot->quantity;
  return taking;
}

Fault fault_of(Lack const& lack, Args const& args) {
  return {FaultCode::rule_refused,
          args.where("--as-quoted"),
          fmt::format("{} of {}", sold_words(lack.wanted, lack.sold_by), lack.code),
          lack.there.n == 0 ? "nothing of it is there for this job"
                            : sold_words(lack.there, lack.sold_by) + " is there for this job",
          {}};
}

class Use {
 public:
  Use(Context const& context, Args const& args, db::Writing& writing)
      : context_(context), args_(args), writing_(writing) {}

  Read<Used> done() {
    auto seen = see_job(workshop(), args_, context_.on);
    if (!seen) return tl::unexpected(std::move(seen.error()));
    view_.as_quoted = args_.has("--as-quoted");
    view_.dry_run = context_.dry_run;
    auto const written = args_.has("--outside")   ? write_billed(*seen)
                         : args_.has("--without") ? write_without(*seen)
                         : view_.as_quoted        ? take_all(*seen)
                                                  : take_one(*seen);
    if (!written) return tl::unexpected(written.error());
    auto after = see_job(workshop(), args_, context_.on);
    if (!after) return tl::unexpected(std::move(after.error()));
    view_.job = std::move(after->job);
    view_.cost = after->cost;
    return std::move(view_);
  }

 private:
  db::Workshop& workshop() { return writing_.workshop(); }

  Read<void> write_billed(JobSeen const& seen) {
    auto const price =
        read_workshop_money(*args_.text("--price"), workshop().currency(), args_.where("--price"));
    if (!price) return tl::unexpected(price.error());
    view_.billed = Billed{*args_.text("--outside"), *price};
    auto const done = db::add_billed(writing_, seen.job, view_.billed->words, *price, context_.on);
    if (!done) return tl::unexpected(done.error());
    return {};
  }

  Read<void> write_without(JobSeen const& seen) {
    view_.without = args_.word(1);
    auto const done = db::say_without(writing_, seen.job, view_.without);
    if (!done) return tl::unexpected(done.error());
    return {};
  }

  Read<void> take_one(JobSeen const& seen) {
    auto const taking = taking_said(workshop(), args_, context_.on);
    if (!taking) return tl::unexpected(taking.error());
    auto const done = take(seen, *taking);
    if (!done) return done;
    look_at_shelf();
    return {};
  }

  // All or nothing; a dry run shows what is short beside what would be taken.
  Read<void> take_all(JobSeen const& seen) {
    TakingAll all = taking_as_quoted(workshop(), seen);
    std::vector<Fault> faults;
    for (Lack const& lack : all.lacks) faults.push_back(fault_of(lack, args_));
    if (!context_.dry_run && !faults.empty()) return tl::unexpected(std::move(faults));
    for (Taking const& taking : all.takings)
      if (auto const done = take(seen, taking); !done)
        faults.insert(faults.end(), done.error().begin(), done.error().end());
    if (faults.size() > all.lacks.size()) return tl::unexpected(std::move(faults));
    view_.lacks = std::move(all.lacks);
    view_.opened = std::move(all.opened);
    look_at_shelf();
    return {};
  }

  Read<void> take(JobSeen const& seen, Taking const& taking) {
    auto postings = db::take_for_job(writing_, seen.job.id, taking.code, taking.lot, taking.quantity,
                                     taking.kind, context_.on, args_.text("--reason").value_or(""));
    if (!postings) return tl::unexpected(std::move(postings.error()));
    view_.taken.push_back({taking, std::move(*postings)});
    return {};
  }

  void look_at_shelf() {
    std::vector<std::string> codes;
    for (Taken const& taken : view_.taken)
      if (std::ranges::find(codes, taken.taking.code) == codes.end()) codes.push_back(taken.taking.code);
    for (std::string const& code : codes) {
      if (auto row = db::on_hand(workshop(), code)) view_.shelf.push_back(std::move(*row));
      auto lots = db::lots(workshop(), code, true);
      std::ranges::move(lots, std::back_inserter(view_.lots));
    }
  }

  Context const& context_;
  Args const& args_;
  db::Writing& writing_;
  Used view_;
};

Read<Answer> run(Context& context, Args const& args) {
  if (auto const one = one_thing(args); !one) return tl::unexpected(one.error());
  auto workshop = context.workshop();
  if (!workshop) return tl::unexpected(workshop.error());
  auto view = in_one_writing(context, **workshop,
                             [&](db::Writing& writing) { return Use(context, args, writing).done(); });
  if (!view) return tl::unexpected(std::move(view.error()));
  return Answer(std::move(*view));
}

}  // namespace

Command job_use() {
  return {
      .noun = "job",
      .verb = "use",
      .summary = "Record what a job takes of the shelf",
      .about =
          "--as-quoted takes all of the quote that is not taken yet, or, when any of it is short, nothing; "
          "what was "
          "really more or less is said after it. A lot without a quantity is taken whole. Work by others is "
          "--outside with its --price.",
      .words = {job_word,
                {"CODE", FlagType::goods, "a material, or a lot such as K3", false},
                {"QUANTITY", FlagType::words, "how much: 12 sheets, 0.2 m2", false, true}},
      .flags = {{"--lot", FlagType::lot, "from this lot or skin, such as K3"},
                {"--spoiled", FlagType::on, "it was spoiled"},
                {"--cut-away", FlagType::on, "it was cut away"},
                {"--reason", FlagType::words, "why"},
                {"--as-quoted", FlagType::on, "all that was quoted and not taken yet"},
                {"--without", FlagType::on, "the job does without this material after all"},
                {"--outside", FlagType::outside, "work by others that was billed, in the words of the quote"},
                {"--price", FlagType::money, "what was billed for it"}},
      .examples = {"job use 26-001 --as-quoted --dry-run", "job use 26-001 goat-moss-08 0.2 m2"},
      .refused_when = "the job has ended, or there is less, or others have reserved it",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
