# cmake -DOUTPUT=sample.cpp -DSTEPS=starter_steps.commands -DWORKSHOP=workshop.commands -P embed.cmake
# Writes the two files as C++ raw strings, in pieces: compilers need accept no more than 65,536 characters in one.
function(pieces file out)
  file(READ ${file} text)
  string(LENGTH "${text}" length)
  set(result "")
  set(at 0)
  while(at LESS length)
    string(SUBSTRING "${text}" ${at} 8000 piece)
    string(APPEND result "R\"commands(${piece})commands\"\n")
    math(EXPR at "${at} + 8000")
  endwhile()
  set(${out} "${result}" PARENT_SCOPE)
endfunction()
pieces(${STEPS} steps)
pieces(${WORKSHOP} workshop)
file(WRITE ${OUTPUT} "// Made from sample_data/*.commands by cli/sample/embed.cmake.
#include \"cli/sample/sample.h\"

namespace endband::cli {
CommandFile const& starter_steps() {
  static constexpr CommandFile file{\"starter_steps.commands\",
${steps}};
  return file;
}
CommandFile const& sample_workshop() {
  static constexpr CommandFile file{\"workshop.commands\",
${workshop}};
  return file;
}
}  // namespace endband::cli
")
