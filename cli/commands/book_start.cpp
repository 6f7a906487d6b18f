// Starts a description from a model that is built in.
#include "cli/commands/commands.h"
#include "engine/book/spec.h"

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

namespace endband::cli {
namespace {

struct ModelList {
  std::vector<Model> models;
};

Json to_json(ModelList const& view) {
  auto const model_json = [](Model const& model) {
    return Json(Json::Object{{"model", model.name}, {"what", model.what}});
  };
  return Json::Object{{"models", json_array(view.models, model_json)},
                      {"model", Json()},
                      {"text", Json()},
                      {"file", Json()},
                      {"dry_run", false}};
}

Document to_document(ModelList const& view) {
  Document document;
  Table table{{{"Model"}, {"What it is"}}, {}};
  for (Model const& model : view.models) table.add({std::string(model.name), std::string(model.what)});
  document.add(std::move(table));
  document.next("endband book start raised-cords -o book.toml");
  return document;
}

struct Started {
  Model model;
  std::optional<std::string> file;  // absent: shown, not written
  bool dry_run = false;
};

Json to_json(Started const& view) {
  return Json::Object{{"models", Json::Array{}},
                      {"model", view.model.name},
                      {"text", view.model.text},
                      {"file", view.file},
                      {"dry_run", view.dry_run}};
}

Document to_document(Started const& view) {
  Document document;
  if (!view.file) return document.add(Verbatim{std::string(view.model.text)}), document;
  document.paragraph((view.dry_run ? "Would write " : "Wrote ") + *view.file + ", " +
                     std::string(view.model.what) + (view.dry_run ? ". Nothing is saved." : "."));
  document.next("change it, then endband quote make " + *view.file);
  return document;
}

// Written beside and renamed, so that no half of a file is ever there.
Read<bool> write_file(std::string const& path, std::string_view text) {
  namespace fs = std::filesystem;
  std::string const beside = path + ".unfinished";
  std::ofstream file(beside, std::ios::binary | std::ios::trunc);
  file << text;
  file.close();
  std::error_code error;
  if (file) fs::rename(beside, path, error);
  if (file && !error) return true;
  std::string const why = error ? error.message() : std::strerror(errno);
  fs::remove(beside, error);
  return refuse({FaultCode::file_unusable, {path, 0, 0, ""}, why, "a file that can be written", {}});
}

Read<Answer> run(Context& context, Args const& args) {
  if (args.has("--list")) return Answer(ModelList{{models().begin(), models().end()}});
  if (args.word_count() == 0)
    return refuse(
        {FaultCode::bad_command, args.where("MODEL"), "", "a model of endband book start --list", {}});
  std::string const& name = args.word(0);
  auto const text = located(model_text(name), args.where("MODEL"));
  if (!text) return tl::unexpected(text.error());
  Started view{.model = {}, .file = args.text("--output"), .dry_run = context.dry_run};
  for (Model const& model : models())
    if (model.name == name) view.model = model;
  if (view.file == "-") view.file.reset();
  if (!view.file) return Answer(std::move(view));
  if (std::error_code error; std::filesystem::exists(*view.file, error) && !context.yes)
    return refuse(
        {FaultCode::already_exists, args.where("--output"), *view.file, "--yes, to write over it", {}});
  if (!context.dry_run)
    if (auto const written = write_file(*view.file, view.model.text); !written)
      return tl::unexpected(written.error());
  return Answer(std::move(view));
}

}  // namespace

Command book_start() {
  return {
      .noun = "book",
      .verb = "start",
      .summary = "Start the description of a book from a model",
      .about = "Without -o the text is shown. A model names no material: your habits do, or the description.",
      .words = {{.name = "MODEL",
                 .type = FlagType::model,
                 .help = "one of --list",
                 .needed = false,
                 .many = false}},
      .flags = {{"--list", FlagType::on, "the models there are"},
                {"--output", FlagType::file, "the file to write", 'o'}},
      .examples = {"book start --list", "book start raised-cords -o book.toml"},
      .refused_when = "the file is there already, and --yes is not said",
      .writes = true,
      .lists = false,
      .run = run};
}

}  // namespace endband::cli
