// What surrounds a command: the workshop it works on, the day, where it reads from, and whether it may write.
#pragma once

#include "db/workshop.h"
#include "engine/fault/fault.h"
#include "engine/measure/measure.h"

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace endband::cli {

class Context {
 public:
  std::string workshop_path;
  bool usual_place = false;  // the path is the usual one: nobody named it
  Date on;                   // the business day: --on, else today's civil date
  std::string at_utc;        // the instant of what is written
  std::string typed;         // the command as typed, for the log, without the workshop's path
  bool dry_run = false;
  bool yes = false;

  // Opened when first asked for, and once.
  Read<db::Workshop*> workshop();
  // A command that makes the workshop hands it over, so that what follows works on it.
  void hold(db::Workshop workshop) { workshop_.emplace(std::move(workshop)); }
  void let_go() { workshop_.reset(); }

  // A file of the user's, or standard input for "-". What was read is kept, so that a fault can show the
  // line.
  Read<std::string> read_file(std::string const& path);
  std::string const* source_text(std::string_view source) const;

  db::EntryInfo entry() const;

 private:
  std::optional<db::Workshop> workshop_;
  std::map<std::string, std::string, std::less<>> sources_;
};

// The name under which standard input stands in messages.
inline constexpr std::string_view standard_input = "standard input";

// Runs `change` in one transaction with one entry in the log; --dry-run does all of it and then rolls back,
// so that what it says would change is what would. T: what `change` gives back.
template <class F>
auto in_one_writing(Context& context, db::Workshop& workshop, F&& change)
    -> decltype(change(std::declval<db::Writing&>())) {
  db::Writing writing(workshop, context.entry());
  auto result = change(writing);
  if (result && !context.dry_run) writing.commit();
  return result;
}

}  // namespace endband::cli
