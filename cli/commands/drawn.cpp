#include "cli/commands/drawn.h"

#include "cli/document/svg.h"
#include "cli/process/taken.h"

#include <filesystem>

namespace endband::cli {

std::vector<NewFile> svg_files(std::vector<Drawing> const& drawings) {
  std::vector<NewFile> files;
  for (Drawing const& drawing : drawings) files.push_back({drawing.name + ".svg", to_svg(drawing)});
  return files;
}

Read<void> may_draw(Context const& context, Args const& args, std::optional<std::string> const& folder,
                    std::vector<NewFile> const& files) {
  if (!folder) return {};
  std::vector<Fault> faults;
  for (NewFile const& file : files)
    if (auto fault =
            taken((std::filesystem::path(*folder) / file.name).string(), args.where("--svg"), context.yes))
      faults.push_back(std::move(*fault));
  if (!faults.empty()) return tl::unexpected(std::move(faults));
  return {};
}

Read<void> draw_files(Context const& context, std::optional<std::string> const& folder,
                      std::vector<NewFile> const& files) {
  if (!folder || files.empty() || context.dry_run) return {};
  if (auto const put = put_files(*folder, files); !put) return tl::unexpected(put.error());
  return {};
}

Read<void> draw(Context const& context, Args const& args, std::optional<std::string> const& folder,
                std::vector<NewFile> const& files) {
  if (auto const may = may_draw(context, args, folder, files); !may) return may;
  return draw_files(context, folder, files);
}

}  // namespace endband::cli
