#include "cli/pdf/module.h"
#include "cli/version.h"

#include <dlfcn.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <climits>
#include <string_view>
#include <vector>

namespace endband::cli {
namespace {

// Where the program itself lies: the module is looked for from there and nowhere else.
std::string own_folder() {
  std::array<char, PATH_MAX> path{};
  ssize_t const size = readlink("/proc/self/exe", path.data(), path.size());
  if (size <= 0) return {};
  std::string_view const whole(path.data(), static_cast<std::size_t>(size));
  return std::string(whole.substr(0, whole.rfind('/')));
}

tl::unexpected<std::vector<Fault>> unusable(std::string const& file, std::string why) {
  return refuse({FaultCode::file_unusable, {file, 0, 0, ""}, std::move(why), "", {}});
}

tl::unexpected<std::vector<Fault>> of_another_version(std::string const& file) {
  return unusable(file, fmt::format("is not the PDF module of endband {}", program_version));
}

Read<WritePdf> load() {
  std::string const folder = own_folder();
  std::string const installed = fmt::format("{}/{}/{}", folder, pdf_module_from_bin, pdf_module_file);
  std::string const beside = folder + "/" + pdf_module_file;
  std::string const file = access(beside.c_str(), R_OK) == 0 ? beside : installed;
  // Never closed: the type-setting libraries keep what they have read of the typefaces.
  void* const module = dlopen(file.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (module == nullptr) {
    char const* const said = dlerror();
    return unusable(
        file, fmt::format("the module that writes PDF cannot be loaded: {}", said == nullptr ? "" : said));
  }
  auto const* const its_version = static_cast<char const* const*>(dlsym(module, pdf_version_symbol));
  if (its_version == nullptr || *its_version != program_version) return of_another_version(file);
  void* const write = dlsym(module, pdf_write_symbol);
  if (write == nullptr) return of_another_version(file);
  return reinterpret_cast<WritePdf>(write);
}

}  // namespace

Read<PdfFile> to_pdf(Document const& document, Page const& page) {
  static Read<WritePdf> const write = load();
  if (!write) return tl::unexpected(write.error());
  PdfFile file;
  std::string why;
  if (!(*write)(document, page, file, why))
    return unusable(page.title, fmt::format("cannot be made as PDF: {}", why));
  return file;
}

}  // namespace endband::cli
