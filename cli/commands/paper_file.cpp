#include "cli/commands/paper_file.h"

#include "cli/document/html.h"
#include "cli/document/text.h"
#include "cli/pdf/pdf.h"
#include "cli/process/put_files.h"
#include "cli/process/taken.h"
#include "cli/words/values.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>

namespace endband::cli {
namespace {

struct FormRow {
  PaperForm form;
  std::string_view name, ending;
};
constexpr std::array forms{FormRow{PaperForm::html, "html", ".html"}, FormRow{PaperForm::pdf, "pdf", ".pdf"},
                           FormRow{PaperForm::ubl, "ubl", ".xml"}};

FormRow const& row_of(PaperForm form) { return *std::ranges::find(forms, form, &FormRow::form); }

// The one that a file's ending says, of those allowed.
std::optional<PaperForm> by_ending(std::string_view file, std::span<PaperForm const> allowed) {
  auto const found =
      std::ranges::find_if(allowed, [&](PaperForm form) { return file.ends_with(row_of(form).ending); });
  return found == allowed.end() ? std::nullopt : std::optional(*found);
}

std::string endings(std::span<PaperForm const> allowed) {
  std::vector<std::string> named;
  for (PaperForm const form : allowed) named.emplace_back(row_of(form).ending);
  return listed(named, "or");
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

std::vector<Flag> paper_flags(FlagType form, std::string_view forms_words) {
  return {{"--as", form, forms_words},
          {"--output", FlagType::file, "the file to write, whose ending says the form too", 'o'},
          {"--letter", FlagType::on, "for US Letter paper; else A4"}};
}

void add_written(Document& document, std::string_view what, PaperFile const& written, bool dry_run) {
  document.paragraph(fmt::format("{} {} {}.", what, dry_run ? "would be in" : "is in", written.file));
  for (std::string const& notice : written.notices) document.notice(NoticeKind::warning, notice);
}

Json notices_json(PaperFile const& written) {
  return json_array(written.notices, [](std::string const& words) { return Json(words); });
}

Page page_of(PaperStyle const& style, std::string const& name, Date written_on) {
  return {.title = name,
          .foot = name,
          .mark = {},
          .page = style.word("page"),
          .page_of = style.word("page-of"),
          .letter = false,
          .written_on = date_text(written_on)};
}

std::string_view form_ending(PaperForm form) { return row_of(form).ending; }

Read<PaperForm> paper_form(Args const& args, std::span<PaperForm const> allowed) {
  auto const said = args.text("--as");
  auto const file = args.text("--output");
  auto const by_name = file ? by_ending(*file, allowed) : std::nullopt;
  if (!said && file && !by_name && std::filesystem::path(*file).has_extension())
    return refuse({FaultCode::bad_value,
                   args.where("--output"),
                   *file,
                   fmt::format("a name that ends in {}; or --as says the form", endings(allowed)),
                   {}});
  if (!said) return by_name.value_or(PaperForm::html);
  std::vector<std::string_view> names;
  for (PaperForm const form : allowed) names.push_back(row_of(form).name);
  auto const at = std::ranges::find(names, std::string_view(*said));
  if (at == names.end())
    return refuse({FaultCode::bad_value, args.where("--as"), *said,
                   listed(std::vector<std::string>(names.begin(), names.end()), "or"),
                   nearest(*said, names)});
  PaperForm const form = allowed[static_cast<std::size_t>(at - names.begin())];
  if (by_name && *by_name != form)
    return refuse({FaultCode::bad_value,
                   args.where("--output"),
                   *file,
                   fmt::format("a name that ends in {}, as --as says", form_ending(form)),
                   {}});
  return form;
}

Read<PaperFile> write_text(Context& context, Args const& args, std::string const& usual, std::string text) {
  std::string const file = args.text("--output").value_or(usual);
  if (file == "-")
    return refuse(
        {FaultCode::bad_value, args.where("--output"), file, "a file's name, such as " + usual, {}});
  if (auto fault = taken(file, args.where("--output"), context.yes)) return refuse(std::move(*fault));
  if (!context.dry_run)
    if (auto put = put_file(file, std::move(text)); !put) return tl::unexpected(std::move(put.error()));
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
  out.notices.insert(out.notices.begin(), paper.notices.begin(), paper.notices.end());
  return out;
}

}  // namespace endband::cli
