// What is priced over and over: a book of the demo workshop, as `quote make` would read it.
#pragma once

#include "engine/commission/commission.h"

#include <string>
#include <vector>

namespace endband::bench {

struct Subject {
  std::string text;  // the description
  BookText said, model, defaults;
  Commission commission;
  std::vector<Layer> layers() const;
};

// Throws std::runtime_error that names what is missing.
Subject load_subject(std::string const& workshop_path, std::string const& book_path, Date on);

}  // namespace endband::bench
