# Writes a C file that holds every file of the built page. Usage: cmake -DSITE=FOLDER -DOUT=FILE.c -P embed-site.cmake
# The bytes are taken in by the assembler; the hashes make the C file, and so the program, change with them.
file(GLOB_RECURSE files LIST_DIRECTORIES false RELATIVE ${SITE} ${SITE}/*)
list(SORT files)
list(LENGTH files count)
if(NOT EXISTS ${SITE}/index.html)
  message(FATAL_ERROR "there is no index.html in ${SITE}")
endif()
set(data "")
set(names "")
set(rows "")
set(i 0)
foreach(name ${files})
  file(SIZE ${SITE}/${name} size)
  file(SHA256 ${SITE}/${name} hash)
  string(SUBSTRING ${hash} 0 32 tag)
  string(APPEND data "        \".balign 16\\n.globl bw_site_${i}\\nbw_site_${i}:\\n.incbin \\\"${SITE}/${name}\\\"\\n\"\n")
  string(APPEND names "extern const unsigned char bw_site_${i}[];\n")
  string(APPEND rows "    {\"${name}\", \"\\\"${tag}\\\"\", bw_site_${i}, ${size}},\n")
  math(EXPR i "${i} + 1")
endforeach()
file(WRITE ${OUT} "/* Made by tools/embed-site.cmake. */
#include \"serve/site.h\"

__asm__(\".pushsection .rodata\\n\"
${data}        \".byte 0\\n.popsection\\n\");
${names}
static const struct site_file FILES[] = {
${rows}};
const struct site site_built_in = {FILES, ${count}};
")
