/* checksum_wide.h: the same checksum with registers twice as wide; for machines that have them. Private to checksum.c. */
#ifndef BW_CHECKSUM_WIDE_H
#define BW_CHECKSUM_WIDE_H

#include "base/machine.h"

#ifdef MACHINE_HAS_WIDTHS
uint64_t checksum64_wide(const void *data, size_t n);
#endif

#endif
