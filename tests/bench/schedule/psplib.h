// Reads an instance of the PSPLIB in its single-mode format (.sm): R. Kolisch and A. Sprecher, "PSPLIB - A
// project scheduling problem library", European Journal of Operational Research 96 (1996) 205-216.
#pragma once

#include "engine/schedule/project.h"

#include <istream>
#include <stdexcept>

namespace endband::schedule::bench {

struct Unreadable : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Jobs become tasks in their order, job 1 task 0. Throws Unreadable with what is wrong: several modes,
// resources that are used up, a count that does not fit.
Project read_psplib(std::istream& in);

}  // namespace endband::schedule::bench
