// The one table of commands, by the stages of the work.
#include "cli/command/command.h"
#include "cli/commands/commands.h"

#include <array>

namespace endband::cli {

// NOLINTNEXTLINE(readability-function-size): a row for each command
std::span<Command const> commands() {
  static std::vector<Command> const table{
      // describe
      book_start(),
      book_measure(),
      book_cut(),
      // quote
      quote_make(),
      quote_list(),
      quote_show(),
      quote_print(),
      quote_explain(),
      quote_odds(),
      quote_weigh(),
      quote_send(),
      quote_revise(),
      quote_decline(),
      quote_accept(),
      // sell
      listing_price(),
      listing_post(),
      listing_change(),
      listing_end(),
      listing_list(),
      // the shelf
      stock_list(),
      stock_receive(),
      stock_count(),
      stock_scrap(),
      stock_write_down(),
      stock_hand_back(),
      stock_change(),
      stock_offcuts(),
      stock_label(),
      stock_moves(),
      stock_supply(),
      stock_to_buy(),
      stock_suggest(),
      stock_export(),
      stock_import(),
      // make
      job_list(),
      job_show(),
      job_use(),
      job_return(),
      job_time(),
      job_paid(),
      job_sold(),
      job_hold(),
      job_approve(),
      job_vary(),
      job_cut(),
      job_print(),
      job_sheet(),
      job_finish(),
      job_cancel(),
      job_export(),
      // look back
      margins_list(),
      margins_show(),
      margins_worth(),
      margins_year(),
      margins_reprice(),
      margins_report(),
      // keep
      material_add(),
      material_change(),
      material_list(),
      material_show(),
      material_price(),
      material_export(),
      material_import(),
      customer_add(),
      customer_change(),
      customer_list(),
      customer_show(),
      customer_export(),
      customer_import(),
      outlet_add(),
      outlet_change(),
      outlet_list(),
      outlet_show(),
      rates_tax(),
      rates_exchange(),
      rates_carriage(),
      rates_list(),
      bench_show(),
      bench_set(),
      bench_off(),
      bench_week(),
      steps_set(),
      steps_list(),
      steps_learn(),
      workshop_new(),
      workshop_set(),
      workshop_today(),
      workshop_show(),
      workshop_check(),
      workshop_backup(),
      workshop_log(),
      workshop_undo(),
      workshop_import(),
      workshop_export(),
  };
  return table;
}

Command const* find_command(std::string_view noun, std::string_view verb) {
  for (Command const& command : commands())
    if (command.noun == noun && command.verb == verb) return &command;
  return nullptr;
}

std::string command_name(Command const& command) {
  return std::string(command.noun) + " " + std::string(command.verb);
}

std::string schema_name(Command const& command) {
  return "endband/" + std::string(command.noun) + "-" + std::string(command.verb) + "/1";
}

std::span<NounRow const> noun_table() {
  static constexpr std::array nouns{
      NounRow{"book", "start a description, measure the book it describes"},
      NounRow{"quote", "make, list, show, explain"},
      NounRow{"listing", "what a book leaves you, outlet by outlet, and what is listed where"},
      NounRow{"stock", "what lies on the shelf, comes and goes"},
      NounRow{"job", "what was accepted: its goods, hours, payments"},
      NounRow{"margins", "what past jobs earned, and why not what was quoted"},
      NounRow{"material", "what is bought, its figures and its prices"},
      NounRow{"customer", "who asks"},
      NounRow{"outlet", "places where books are sold, and what they take"},
      NounRow{"rates", "tax, exchange and carriage, all your own"},
      NounRow{"bench", "who works when, days off, presses and drying places"},
      NounRow{"steps", "how long each step of the work takes"},
      NounRow{"workshop", "the file all of it is kept in, and its settings"},
      NounRow{"help", "the commands, one of them, or the manual page", true},
      NounRow{"completion", "what a shell completes these commands with", true},
  };
  return nouns;
}

std::span<std::string_view const> shells() {
  static constexpr std::array<std::string_view, 3> names{"bash", "zsh", "fish"};
  return names;
}

std::span<Flag const> global_flags() {
  static constexpr std::array flags{
      Flag{"--workshop", FlagType::file, "the workshop's file; else ENDBAND_WORKSHOP, else the usual place"},
      Flag{"--on", FlagType::date, "the business day, for prices, times and settings in force; else today"},
      Flag{"--at", FlagType::clock, "the time of day (UTC) that the log keeps; else now"},
      Flag{"--json", FlagType::on, "answer, and faults, as one JSON document"},
      Flag{"--no-pager", FlagType::on, "do not page a long answer at a terminal"},
      Flag{"--no-color", FlagType::on, "no bold and no colour at a terminal"},
      Flag{"--no-input", FlagType::on, "for scripts that say so: nothing is ever asked"},
      Flag{"--help", FlagType::on, "help, wherever it stands", 'h'},
      Flag{"--version", FlagType::on, "name and version"},
      Flag{"--jsonl", FlagType::on, "a list as one JSON object a line"},
      Flag{"--dry-run", FlagType::on, "show what would change, and change nothing", 'n'},
      Flag{"--yes", FlagType::on, "answer yes to what would be asked", 'y'},
  };
  return flags;
}

std::vector<Flag> flags_of(Command const& command) {
  std::vector<Flag> flags = command.flags;
  for (Flag const& flag : global_flags()) {
    bool const of_writers = flag.name == "--dry-run" || flag.name == "--yes";
    if ((of_writers && !command.writes) || (flag.name == "--jsonl" && !command.lists)) continue;
    flags.push_back(flag);
  }
  return flags;
}

}  // namespace endband::cli
