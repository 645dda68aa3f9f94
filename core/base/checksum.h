/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A checksum by which a line that was damaged or changed by mistake is found. */
#ifndef BITE_BASE_CHECKSUM_H
#define BITE_BASE_CHECKSUM_H

#include <stddef.h>
#include <stdint.h>

/** CRC-32C (Castagnoli's polynomial, as in RFC 3720): finds every change of up to five bits in a
 * text of up to 655 bytes, where the older CRC-32 is certain of three or four (Koopman 2002), and
 * every burst of up to 32 bits. It does not protect against intent. */
uint32_t bite_checksum(const char *text, size_t size);

#endif
