// Drawings that a command writes into the folder of --svg: none over one that is there, unless --yes was
// said.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/document/drawing.h"
#include "cli/process/put_files.h"

#include <optional>
#include <string>
#include <vector>

namespace endband::cli {

// Each drawing as a file of its name.
std::vector<NewFile> svg_files(std::vector<Drawing> const& drawings);

// As `taken` says, for each of them; without a folder there is nothing to say.
Read<void> may_draw(Context const& context, Args const& args, std::optional<std::string> const& folder,
                    std::vector<NewFile> const& files);
// Both, one after the other, where nothing else is written.
Read<void> draw(Context const& context, Args const& args, std::optional<std::string> const& folder,
                std::vector<NewFile> const& files);
// Nothing without a folder or a file, nor with --dry-run.
Read<void> draw_files(Context const& context, std::optional<std::string> const& folder,
                      std::vector<NewFile> const& files);

}  // namespace endband::cli
