/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Read before a source by clang-tidy alone: what functions of other files return. An error that is
 * set is what the function returns, not BITE_OK. */
#include "core/base/error.h"

#define bite_error_set(error, status, ...)                                                         \
    ((void)bite_error_set(error, status, __VA_ARGS__), (status))
