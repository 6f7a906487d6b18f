#include "tests/faults/failing_disk.h"

#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <memory>
#include <new>
#include <string>
#include <vector>

namespace endband::faults {
namespace {

struct Pending {
  sqlite3_int64 at = 0;
  std::vector<char> bytes;
  bool truncates = false;  // to `at`
};

// What all openers of one file in this process see of it, and what of that the disk has not got yet.
struct Image {
  std::vector<char> bytes;
  std::vector<Pending> pending;
};

struct Disk {
  sqlite3_vfs* below = nullptr;
  std::map<std::string, std::weak_ptr<Image>> images;
  std::map<sqlite3_file*, Image*> open;  // by the file below
  int steps = 0, failing = 0;
  Failure failure = Failure::full;
  bool failed = false;
};
Disk& disk() {
  static Disk one;
  return one;
}

struct File {
  sqlite3_file base;
  std::shared_ptr<Image>* image;
  sqlite3_file* below() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File& of(sqlite3_file* file) { return *reinterpret_cast<File*>(file); }
sqlite3_file* under(sqlite3_file* file) { return of(file).below(); }

int put(sqlite3_file* below, Pending const& pending, std::size_t bytes) {
  if (pending.truncates) return below->pMethods->xTruncate(below, pending.at);
  return below->pMethods->xWrite(below, pending.bytes.data(), static_cast<int>(bytes), pending.at);
}

[[noreturn]] void cut_power() {
  if (disk().failure == Failure::torn_writes)
    for (auto const& [below, image] : disk().open) {
      std::size_t const count = image->pending.size();
      for (std::size_t i = 0; i < count; ++i) {
        Pending const& each = image->pending[i];
        bool const last = i + 1 == count;
        if (last || i % 2 == 0) put(below, each, last ? each.bytes.size() / 2 : each.bytes.size());
      }
    }
  ::_exit(ended_by_power_cut);
}

enum class Step : std::uint8_t { write, sync, truncate, remove };

// What SQLite is told instead of the step's success, or SQLITE_OK.
int failure_of(Step step) {
  Disk& the = disk();
  int const now = ++the.steps;
  if (the.failing == 0 || now < the.failing) return SQLITE_OK;
  bool const lasting = the.failure == Failure::full || the.failure == Failure::dead_disk;
  if (now > the.failing && !lasting) return SQLITE_OK;
  the.failed = true;
  if (the.failure == Failure::power_cut || the.failure == Failure::torn_writes) cut_power();
  if (the.failure == Failure::full) return step == Step::write ? SQLITE_FULL : SQLITE_OK;
  switch (step) {
    case Step::write: return SQLITE_IOERR_WRITE;
    case Step::sync: return SQLITE_IOERR_FSYNC;
    case Step::truncate: return SQLITE_IOERR_TRUNCATE;
    case Step::remove: return SQLITE_IOERR_DELETE;
  }
  return SQLITE_IOERR;
}

// --- a file

int close_file(sqlite3_file* file) {
  std::shared_ptr<Image>& image = *of(file).image;
  // The last to close it: what was never synced arrives later, unless the disk is dead.
  if (image.use_count() == 1 && !(disk().failed && disk().failure == Failure::dead_disk))
    for (Pending const& each : image->pending) put(under(file), each, each.bytes.size());
  disk().open.erase(under(file));
  delete of(file).image;
  return under(file)->pMethods->xClose(under(file));
}

int read_file(sqlite3_file* file, void* into, int amount, sqlite3_int64 at) {
  std::vector<char> const& bytes = (*of(file).image)->bytes;
  auto const wanted = static_cast<std::size_t>(amount), from = static_cast<std::size_t>(at);
  std::size_t const there = from >= bytes.size() ? 0 : std::min(wanted, bytes.size() - from);
  if (there > 0) std::memcpy(into, bytes.data() + from, there);
  if (there == wanted) return SQLITE_OK;
  std::memset(static_cast<char*>(into) + there, 0, wanted - there);
  return SQLITE_IOERR_SHORT_READ;
}

int write_file(sqlite3_file* file, void const* from, int amount, sqlite3_int64 at) {
  if (int const failure = failure_of(Step::write); failure != SQLITE_OK) return failure;
  Image& image = **of(file).image;
  auto const* const bytes = static_cast<char const*>(from);
  auto const begin = static_cast<std::size_t>(at), count = static_cast<std::size_t>(amount);
  image.bytes.resize(std::max(image.bytes.size(), begin + count));
  std::copy_n(bytes, count, image.bytes.begin() + static_cast<std::ptrdiff_t>(begin));
  image.pending.push_back({at, {bytes, bytes + amount}, false});
  return SQLITE_OK;
}

int truncate_file(sqlite3_file* file, sqlite3_int64 size) {
  if (int const failure = failure_of(Step::truncate); failure != SQLITE_OK) return failure;
  Image& image = **of(file).image;
  image.bytes.resize(static_cast<std::size_t>(size));
  image.pending.push_back({size, {}, true});
  return SQLITE_OK;
}

int sync_file(sqlite3_file* file, int flags) {
  if (int const failure = failure_of(Step::sync); failure != SQLITE_OK) return failure;
  Image& image = **of(file).image;
  for (Pending const& each : image.pending)
    if (int const code = put(under(file), each, each.bytes.size()); code != SQLITE_OK) return code;
  image.pending.clear();
  return under(file)->pMethods->xSync(under(file), flags);
}

int size_of_file(sqlite3_file* file, sqlite3_int64* size) {
  *size = static_cast<sqlite3_int64>((*of(file).image)->bytes.size());
  return SQLITE_OK;
}

int lock(sqlite3_file* file, int level) { return under(file)->pMethods->xLock(under(file), level); }
int unlock(sqlite3_file* file, int level) { return under(file)->pMethods->xUnlock(under(file), level); }
int is_reserved(sqlite3_file* file, int* out) {
  return under(file)->pMethods->xCheckReservedLock(under(file), out);
}
int control(sqlite3_file* file, int what, void* argument) {
  // A hint to make room would write past us.
  if (what == SQLITE_FCNTL_SIZE_HINT || what == SQLITE_FCNTL_CHUNK_SIZE) return SQLITE_NOTFOUND;
  return under(file)->pMethods->xFileControl(under(file), what, argument);
}
int sector_size(sqlite3_file* file) { return under(file)->pMethods->xSectorSize(under(file)); }
int characteristics(sqlite3_file* file) { return under(file)->pMethods->xDeviceCharacteristics(under(file)); }
int map_shared(sqlite3_file* file, int region, int size, int extend, void volatile** out) {
  return under(file)->pMethods->xShmMap(under(file), region, size, extend, out);
}
int lock_shared(sqlite3_file* file, int offset, int count, int flags) {
  return under(file)->pMethods->xShmLock(under(file), offset, count, flags);
}
void barrier(sqlite3_file* file) { under(file)->pMethods->xShmBarrier(under(file)); }
int unmap_shared(sqlite3_file* file, int remove) {
  return under(file)->pMethods->xShmUnmap(under(file), remove);
}

// Version 2: with shared memory for the write-ahead log, without mapping of the file itself, which we could
// not see.
constexpr sqlite3_io_methods methods{
    2,           close_file, read_file,    write_file, truncate_file, sync_file,       size_of_file,
    lock,        unlock,     is_reserved,  control,    sector_size,   characteristics, map_shared,
    lock_shared, barrier,    unmap_shared, nullptr,    nullptr};

// --- the file system

std::shared_ptr<Image> image_of(char const* name, sqlite3_file* below) {
  std::shared_ptr<Image> image = name == nullptr ? nullptr : disk().images[name].lock();
  if (image) return image;
  image = std::make_shared<Image>();
  sqlite3_int64 size = 0;
  if (below->pMethods->xFileSize(below, &size) == SQLITE_OK && size > 0) {
    image->bytes.resize(static_cast<std::size_t>(size));
    below->pMethods->xRead(below, image->bytes.data(), static_cast<int>(size), 0);
  }
  if (name != nullptr) disk().images[name] = image;
  return image;
}

int open_file(sqlite3_vfs*, sqlite3_filename name, sqlite3_file* file, int flags, int* out_flags) {
  file->pMethods = nullptr;
  int const code = disk().below->xOpen(disk().below, name, under(file), flags, out_flags);
  if (code != SQLITE_OK) {
    if (under(file)->pMethods != nullptr) under(file)->pMethods->xClose(under(file));
    return code;
  }
  of(file).image = new std::shared_ptr<Image>(image_of(name, under(file)));
  disk().open[under(file)] = of(file).image->get();
  file->pMethods = &methods;
  return SQLITE_OK;
}

int remove_file(sqlite3_vfs*, char const* name, int sync_folder) {
  if (int const failure = failure_of(Step::remove); failure != SQLITE_OK) return failure;
  disk().images.erase(name);
  return disk().below->xDelete(disk().below, name, sync_folder);
}

// Always the same, so that two runs that fail alike leave the same bytes.
int same_numbers(sqlite3_vfs*, int bytes, char* out) {
  std::memset(out, 42, static_cast<std::size_t>(bytes));
  return bytes;
}

}  // namespace

void fail_at(int step, Failure failure) {
  disk().failing = step;
  disk().failure = failure;
}
int steps_so_far() { return disk().steps; }
bool has_failed() { return disk().failed; }

void install() {
  disk().below = sqlite3_vfs_find(nullptr);
  static sqlite3_vfs layer = *disk().below;  // all that is not about files is as below
  layer.zName = "failing-disk";
  layer.szOsFile = static_cast<int>(sizeof(File)) + disk().below->szOsFile;
  layer.xOpen = open_file;
  layer.xDelete = remove_file;
  layer.xRandomness = same_numbers;
  if (sqlite3_vfs_register(&layer, 1) != SQLITE_OK) throw std::bad_alloc();
  sqlite3_test_control(SQLITE_TESTCTRL_PRNG_RESET);  // what it drew before came from the other
}

}  // namespace endband::faults
