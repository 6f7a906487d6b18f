// What a writing command changed, or with --dry-run would have: the view of all commands that keep records.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"
#include "engine/measure/measure.h"

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace endband::cli {

// A field of a record with its value as one would type it; empty: it has none.
using Fields = std::vector<std::pair<std::string, std::string>>;

struct Change {
  std::string field;
  std::optional<std::string> from, to;
};
// Of two states of one record, the fields that differ; `before` empty: all of a new one.
std::vector<Change> changes_between(Fields const& before, Fields const& after);
// The same of records whose fields come and go: what the later one no longer has is told too.
std::vector<Change> all_changes_between(Fields const& before, Fields after);

enum class Deed : std::uint8_t { added, changed, priced, set };

struct Changed {
  Deed deed = Deed::changed;
  std::string noun, code;  // "material", "goat-green"
  std::vector<Change> changes;
  std::optional<Date> from;  // in force from
  bool dry_run = false;
  std::string next;  // the command that comes next
};
Json to_json(Changed const& changed);
Document to_document(Changed const& changed);

}  // namespace endband::cli
