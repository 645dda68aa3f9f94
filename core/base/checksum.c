/* SPDX-License-Identifier: GPL-3.0-or-later */
/* CRC-32C, half a byte at a time. */
#include "core/base/checksum.h"

#define POLYNOMIAL 0x82F63B78u /* 0x1EDC6F41 with its bits reversed (RFC 3720, 12.1) */

/* The remainder of four bits. */
static uint32_t step(uint32_t value)
{
    for (int i = 0; i < 4; i++) {
        value = (value & 1u) != 0 ? value >> 1 ^ POLYNOMIAL : value >> 1;
    }
    return value;
}

uint32_t bite_checksum(const char *text, size_t size)
{
    uint32_t table[16];
    uint32_t value = 0xFFFFFFFFu;
    for (uint32_t i = 0; i < 16; i++) {
        table[i] = step(i);
    }
    for (size_t i = 0; i < size; i++) {
        value ^= (unsigned char)text[i];
        value = value >> 4 ^ table[value & 15u];
        value = value >> 4 ^ table[value & 15u];
    }
    return value ^ 0xFFFFFFFFu;
}
