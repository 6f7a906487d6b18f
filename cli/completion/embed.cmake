# cmake -DOUTPUT=scripts.cpp -DFOLDER=cli/completion -P embed.cmake
# Writes the shells' scripts as one C++ function.
set(text "// Made from the files of cli/completion by embed.cmake.
#include \"cli/completion/scripts.h\"

namespace endband::cli {

std::string_view completion_script(std::string_view shell) {
")
foreach(shell IN ITEMS bash zsh fish)
  file(READ ${FOLDER}/endband.${shell} script)
  string(APPEND text "  if (shell == \"${shell}\") return R\"script(${script})script\";\n")
endforeach()
string(APPEND text "  return {};
}

}  // namespace endband::cli
")
file(WRITE ${OUTPUT} "${text}")
