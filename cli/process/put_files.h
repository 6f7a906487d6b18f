// Files for the user, written so that no half of one is ever there.
#pragma once

#include "engine/fault/fault.h"

#include <span>
#include <string>
#include <vector>

namespace endband::cli {

struct NewFile {
  std::string name;  // within the folder
  std::string text;
};

// A name that leads out of the folder throws std::logic_error, whatever data it was made from.
// Makes the folder where there is none, writes every file beside its place, and only when all are written
// puts them there, over what had their names. Where one cannot be written none is changed, and nothing is
// left.
Read<bool> put_files(std::string const& folder, std::span<NewFile const> files);
// The same for one file, whose folder must be there: a slip of a path makes none.
Read<bool> put_file(std::string const& path, std::string text);

}  // namespace endband::cli
