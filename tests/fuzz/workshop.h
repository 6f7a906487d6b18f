// The sample workshop, made anew in a folder that goes with the process.
#pragma once

#include "cli/command/run.h"

#include <string>
#include <vector>

namespace endband::fuzz {

// Makes it, once; the process then stands in that folder, with nothing to read on standard input.
std::string const& workshop_folder();
std::string workshop_path();

// A command line in there, on the same day always.
cli::Outcome run(std::vector<std::string> const& words);

// The folder as it was made, whatever a command wrote into it.
void tidy();

}  // namespace endband::fuzz
