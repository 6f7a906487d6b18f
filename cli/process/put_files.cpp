#include "cli/process/put_files.h"

#include "cli/process/unfinished.h"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <vector>

namespace endband::cli {
namespace {

namespace fs = std::filesystem;

tl::unexpected<std::vector<Fault>> unusable(fs::path const& path, std::string why, std::string wanted) {
  return refuse({FaultCode::file_unusable, {path.string(), 0, 0, ""}, std::move(why), std::move(wanted), {}});
}

// The files that are not yet in their places: those that are left when it ends are removed, and the folder
// with them where it was made for them.
class Beside {
 public:
  explicit Beside(fs::path folder) : folder_(std::move(folder)) {}
  Beside(Beside const&) = delete;
  Beside& operator=(Beside const&) = delete;
  ~Beside() {
    std::error_code error;
    for (fs::path const& path : unfinished_) fs::remove(beside(path), error);
    if (made_folder_ && !placed_) fs::remove(folder_, error);
  }

  Read<bool> have_folder() {
    std::error_code error;
    if (fs::is_directory(folder_, error)) return true;
    made_folder_ = fs::create_directory(folder_, error);
    if (made_folder_ || !error) return true;  // without an error another process has just made it
    return unusable(folder_, error.message(), "a folder that can be written");
  }

  Read<bool> write(NewFile const& file) {
    if (fs::path(file.name).filename() != file.name || file.name == ".." || file.name == ".")
      throw std::logic_error("a file's name that leads out of its folder: " + file.name);
    fs::path const path = folder_ / file.name;
    if (std::error_code error; fs::is_directory(path, error))
      return unusable(path, "is a folder", "a file that can be written");
    unfinished_.push_back(path);
    errno = 0;
    std::ofstream out(beside(path), std::ios::binary | std::ios::trunc);
    out << file.text;
    out.close();
    if (out) return true;
    return unusable(path, errno != 0 ? std::strerror(errno) : "cannot be written",
                    "a file that can be written");
  }

  Read<bool> place_all() {
    while (!unfinished_.empty()) {
      fs::path const path = unfinished_.back();
      std::error_code error;
      fs::rename(beside(path), path, error);
      if (error) return unusable(path, error.message(), "a file that can be written");
      unfinished_.pop_back();
      placed_ = true;
    }
    return true;
  }

 private:
  static fs::path beside(fs::path path) { return path += ".unfinished"; }

  fs::path folder_;
  std::vector<fs::path> unfinished_;
  bool made_folder_ = false;
  bool placed_ = false;
};

}  // namespace

Read<bool> put_files(std::string const& folder, std::span<NewFile const> files) {
  SignalsWait const wait;  // until nothing unfinished is left
  Beside beside(folder);
  if (auto const had = beside.have_folder(); !had) return had;
  for (NewFile const& file : files)
    if (auto const written = beside.write(file); !written) return written;
  return beside.place_all();
}

Read<bool> put_file(std::string const& path, std::string text) {
  fs::path const whole(path);
  fs::path const folder = whole.has_parent_path() ? whole.parent_path() : fs::path(".");
  if (std::error_code error; !whole.has_filename() || !fs::is_directory(folder, error))
    return unusable(whole, "its folder is not there", "a file in a folder that is");
  NewFile const file{whole.filename().string(), std::move(text)};
  return put_files(folder.string(), std::span(&file, 1));
}

}  // namespace endband::cli
