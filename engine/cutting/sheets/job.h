// A request made ready for searching; for the .cpp files of this folder only. A kerf k disappears when every
// side, of pieces and of sheets within their trim, is k longer: lengths here are such "grown" ones unless
// said otherwise.
#pragma once

#include "engine/cutting/geometry/worth.h"
#include "engine/cutting/sheets/sheets.h"

#include <array>

namespace endband::cutting::many {

__extension__ using Wide = __int128;

// Pieces of the request that are equal but for their place in it.
struct Type {
  std::int64_t width = 0, height = 0;  // as it lies unturned
  std::int64_t area = 0;               // grown
  std::int64_t count = 0;
  bool turns = false;       // and is no square
  int shape = 0;            // its first in Job::shapes; where it turns the next is the turned one
  std::vector<int> pieces;  // of the request
};

// A type as it lies.
struct Shape {
  int type = 0;
  bool turned = false;
  std::int64_t width = 0, height = 0;
};

// A sheet of the request that some piece fits.
struct Kind {
  int sheet = 0;
  std::int64_t width = 0, height = 0;
  std::int64_t area = 0;  // grown
  std::int64_t cost = 0;
  std::int64_t copies = 0;  // never more than there are pieces
  bool roll = false;
};

struct Job {
  SheetRequest const* request = nullptr;
  std::vector<Type> types;    // the largest area first
  std::vector<Shape> shapes;  // of the types in turn
  std::vector<Kind> kinds;    // the lowest cost by area first
  std::int64_t pieces = 0;    // how many in all
  std::int64_t area = 0;      // of all, grown
  int shift = 0;              // areas >> shift stay below 2^31

  bool worth_counts() const { return request->least_kept > 0 && request->worth.num > 0; }
};

// std::logic_error as plan_sheets says.
Job job_of(SheetRequest const& request);

// Pieces that fit no sheet, one obstacle each.
std::vector<Obstacle> misfits(SheetRequest const& request);

std::int64_t plus(std::int64_t a, std::int64_t b);   // std::logic_error where it leaves 64 bits
std::int64_t times(std::int64_t a, std::int64_t b);  // likewise

// What the sheet's rectangle within its trim measures; not grown, and not positive when nothing is left.
std::array<std::int64_t, 2> usable(Sheet const& sheet, std::int64_t trim);

// What a kept offcut (not grown) of the sheet is worth.
std::int64_t worth_of(SheetRequest const& request, int sheet, std::int64_t width, std::int64_t height);

}  // namespace endband::cutting::many
