/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tests/support/written_text.h"
#include "tests/support/support.h"
#include <stdlib.h>
#include <string.h>

int bite_written_text_add(void *user, const char *piece, size_t size)
{
    bite_written_text *all = user;
    all->at = realloc(all->at, all->size + size + 1);
    ck_assert_ptr_nonnull(all->at);
    memcpy(all->at + all->size, piece, size);
    all->size += size;
    all->at[all->size] = 0;
    return 0;
}
