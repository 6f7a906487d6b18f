// A book measured: what `book measure` shows.
#pragma once

#include "cli/document/document.h"
#include "cli/document/json.h"
#include "engine/book/structure.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

struct Measured {
  std::string binding, model;
  BookSpec book;
  std::vector<Structure> volumes;  // one, where the book is no set
  Structure whole;                 // all volumes and copies
  std::vector<Material> materials;
  std::vector<Drawing> drawings;
  std::optional<std::string> folder;  // that they are written to
  bool dry_run = false;
  Structure const& first() const { return volumes.front(); }
};

std::string drawing_file(Drawing const& drawing);  // "section.svg"

Json to_json(Measured const& view);
Document to_document(Measured const& view);

}  // namespace endband::cli
