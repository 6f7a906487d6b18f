// A file that only its owner may read (mode 0600), written piece by piece beside its place, and there whole
// or not at all.
#pragma once

#include "cli/process/unfinished.h"
#include "engine/fault/fault.h"

#include <string>
#include <string_view>

namespace endband::cli {

class PrivateFile {
 public:
  explicit PrivateFile(std::string path);
  PrivateFile(PrivateFile const&) = delete;
  PrivateFile& operator=(PrivateFile const&) = delete;
  ~PrivateFile();

  // Faults, of all three: file_unusable.
  Read<bool> begin();
  Read<bool> write(std::string_view text);
  Read<bool> put_in_place();  // over what has its name

 private:
  tl::unexpected<std::vector<Fault>> unusable() const;

  std::string path_;
  Unfinished beside_;
  int descriptor_ = -1;
};

}  // namespace endband::cli
