# cmake -DOUTPUT=migrations.cpp -DFILES="a.sql;b.sql" -P embed.cmake
# Writes the numbered .sql files as one table of C++ raw strings; the version is the number a name starts with.
set(rows "")
foreach(file IN LISTS FILES)
  get_filename_component(name ${file} NAME_WE)
  string(REGEX MATCH "^[0-9]+" version ${name})
  string(REGEX REPLACE "^0+" "" version ${version})
  file(READ ${file} sql)
  string(APPEND rows "    Migration{${version}, \"${name}\", R\"sql(${sql})sql\"},\n")
endforeach()
file(WRITE ${OUTPUT} "// Made from schema/*.sql by schema/embed.cmake.\n#include \"schema/schema.h\"\n\n#include <array>\n
namespace endband::schema {
namespace {
constexpr std::array table{
${rows}};
}  // namespace
std::span<Migration const> migrations() { return table; }
}  // namespace endband::schema
")
