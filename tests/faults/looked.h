// What a workshop stands at after something failed under it.
#pragma once

#include "db/workshop.h"

#include <map>
#include <set>
#include <string>

namespace endband::faults {

// Every row of every table, in order.
std::string dump(db::Workshop& workshop);

// Files of the same bytes are looked at once: a disk that failed before anything reached it is the same disk.
class Looked {
 public:
  // The dump of the workshop there, once it is found sound; "" where there is no file. Throws runtime_error
  // with what is wrong with it.
  std::string const& at(std::string const& path);

 private:
  std::string look(std::string const& path);

  std::map<std::size_t, std::string> seen_;  // by a hash of the bytes
  std::set<std::string> sound_;              // dumps whose sums have been checked
};

}  // namespace endband::faults
