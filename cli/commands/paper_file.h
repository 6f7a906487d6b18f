// A paper written to a file of the form that was asked for. Every command that prints takes the same flags.
#pragma once

#include "cli/command/args.h"
#include "cli/command/context.h"
#include "cli/command/flag.h"
#include "cli/document/document.h"
#include "cli/document/json.h"
#include "cli/document/page.h"
#include "cli/words/paper_style.h"

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace endband::cli {

enum class PaperForm : std::uint8_t { html, pdf, ubl };
inline constexpr std::array page_forms{PaperForm::html, PaperForm::pdf};

// --as, --output (whose ending says the form too) and --letter.
std::vector<Flag> paper_flags(FlagType form = FlagType::page_form,
                              std::string_view forms = "html (unless said) or pdf");

// Faults: bad_value, where --as and the ending of --output differ, or say no form.
Read<PaperForm> paper_form(Args const& args, std::span<PaperForm const> allowed = page_forms);
std::string_view form_ending(PaperForm form);  // ".html"

struct PaperFile {
  std::string file;
  std::vector<std::string> notices{};  // what came out otherwise than it should
};

// What an answer says of it: where it is, or would be; and what came out otherwise.
void add_written(Document& document, std::string_view what, PaperFile const& written, bool dry_run);
Json notices_json(PaperFile const& written);

// A document and what stands around it; a page of its own each.
struct NewPaper {
  Document document;
  Page page;
  std::string stem;                    // of the file's name where --output says none: "quotation-26-001a"
  std::vector<std::string> notices{};  // what could not be put on it
};
// Around a paper of this name and day, in the workshop's words.
Page page_of(PaperStyle const& style, std::string const& name, Date written_on);
// Written whole or not at all; with --dry-run not at all. Faults: already_exists without --yes,
// file_unusable.
Read<PaperFile> write_paper(Context& context, Args const& args, NewPaper paper);
// The same for a text that is no page, whose name ends otherwise.
Read<PaperFile> write_text(Context& context, Args const& args, std::string const& usual, std::string text);

}  // namespace endband::cli
