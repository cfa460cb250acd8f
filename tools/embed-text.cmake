# Writes a C file that holds a text. Usage: cmake -DTEXT=FILE -DNAME=SYMBOL -DOUT=FILE.c -P embed-text.cmake
file(READ ${TEXT} bytes HEX)
file(SIZE ${TEXT} size)
string(REGEX REPLACE "(................................)" "\\1\n" bytes "${bytes}")
string(REGEX REPLACE "([0-9a-f][0-9a-f])" "0x\\1," bytes "${bytes}")
file(WRITE ${OUT} "/* Made by tools/embed-text.cmake. */
#include <stddef.h>

extern const unsigned char ${NAME}[];
extern const size_t ${NAME}_bytes;
const unsigned char ${NAME}[] = {\n${bytes}};
const size_t ${NAME}_bytes = ${size};
")
