#include "cli/commands/paper_file.h"

#include "cli/document/html.h"
#include "cli/document/text.h"
#include "cli/pdf/pdf.h"
#include "cli/process/put_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace endband::cli {
namespace {

struct FormRow {
  PaperForm form;
  std::string_view name, ending;
};
constexpr std::array forms{FormRow{PaperForm::html, "html", ".html"}, FormRow{PaperForm::pdf, "pdf", ".pdf"}};
constexpr std::string_view either = "html or pdf";

FormRow const* by_ending(std::string_view file) {
  auto const found =
      std::ranges::find_if(forms, [&](FormRow const& row) { return file.ends_with(row.ending); });
  return found == forms.end() ? nullptr : found;
}

struct Place {
  std::string folder, name;
};
Place place_of(std::string const& file) {
  std::size_t const slash = file.rfind('/');
  if (slash == std::string::npos) return {".", file};
  return {slash == 0 ? "/" : file.substr(0, slash), file.substr(slash + 1)};
}

// "the typeface has no letters for: 漢 字"
std::string letters_missing(std::string const& characters) {
  std::string listed;
  for (std::size_t at = 0; at < characters.size();) {
    std::size_t const first = at;
    next_code_point(characters, at);
    listed += " " + characters.substr(first, at - first);
  }
  return "No typeface on this machine has letters for:" + listed +
         ". Boxes stand in their places; another "
         "typeface with them helps.";
}

Read<PaperFile> as_pdf(NewPaper const& paper, std::string& text) {
  auto made = to_pdf(paper.document, paper.page);
  if (!made) return tl::unexpected(std::move(made.error()));
  PaperFile out;
  if (!made->typeface.empty())
    out.notices.push_back(fmt::format(
        "EB Garamond is not installed; the page is set in {}. Debian's fonts-ebgaramond brings it.",
        made->typeface));
  if (!made->without_letters.empty()) out.notices.push_back(letters_missing(made->without_letters));
  text = std::move(made->bytes);
  return out;
}

}  // namespace

std::vector<Flag> paper_flags() {
  return {{"--as", FlagType::code, "html (unless said) or pdf"},
          {"--output", FlagType::file, "the file to write, whose ending says the form too", 'o'},
          {"--letter", FlagType::on, "for US Letter paper; else A4"}};
}

Page page_of(PaperStyle const& style, std::string name, Date written_on) {
  return {.title = name,
          .foot = name,
          .mark = {},
          .page = style.word("page"),
          .page_of = style.word("page-of"),
          .letter = false,
          .written_on = date_text(written_on)};
}

std::string_view form_ending(PaperForm form) {
  return std::ranges::find(forms, form, &FormRow::form)->ending;
}

Read<PaperForm> paper_form(Args const& args) {
  auto const said = args.text("--as");
  auto const file = args.text("--output");
  FormRow const* const named = file ? by_ending(*file) : nullptr;
  if (!said) return named != nullptr ? named->form : PaperForm::html;
  auto const row = std::ranges::find(forms, std::string_view(*said), &FormRow::name);
  if (row == forms.end())
    return refuse({FaultCode::bad_value, args.where("--as"), *said, std::string(either), {}});
  if (named != nullptr && named != row)
    return refuse({FaultCode::bad_value,
                   args.where("--output"),
                   *file,
                   fmt::format("a name that ends in {}, as --as says", row->ending),
                   {}});
  return row->form;
}

Read<PaperFile> write_text(Context& context, Args const& args, std::string const& usual, std::string text) {
  std::string const file = args.text("--output").value_or(usual);
  Place const place = place_of(file);
  std::vector<NewFile> const files{{place.name, std::move(text)}};
  if (!context.yes && !files_there(place.folder, files).empty())
    return refuse({FaultCode::already_exists, args.where("--output"), file, "--yes, to write over it", {}});
  if (!context.dry_run)
    if (auto put = put_files(place.folder, files); !put) return tl::unexpected(std::move(put.error()));
  return PaperFile{file, {}};
}

Read<PaperFile> write_paper(Context& context, Args const& args, NewPaper paper) {
  auto const form = paper_form(args);
  if (!form) return tl::unexpected(form.error());
  std::string text;
  PaperFile out;
  paper.page.letter = args.has("--letter");
  if (*form == PaperForm::pdf) {
    auto made = as_pdf(paper, text);
    if (!made) return made;
    out = std::move(*made);
  } else {
    text = to_html(paper.document, paper.page);
  }
  auto written = write_text(context, args, paper.stem + std::string(form_ending(*form)), std::move(text));
  if (!written) return written;
  out.file = std::move(written->file);
  return out;
}

}  // namespace endband::cli
