/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a result is to be shown: the caller's bite_style, checked. */
#ifndef BITE_REPORT_STYLE_H
#define BITE_REPORT_STYLE_H

#include <coolbite/coolbite.h>

/** Sets of formats, for bite_style_check. */
#define BITE_STYLE_FORMAT(format) (1u << (format))
#define BITE_STYLE_PAGE (BITE_STYLE_FORMAT(BITE_TEXT) | BITE_STYLE_FORMAT(BITE_JSON))

/**
 * Checks what every writer is called with: a sink, and a style of this library's size whose units
 * and format there are.
 *
 * style: NULL is the usual one, which is good. formats: those that the writer knows.
 * BITE_BAD_ARGUMENT, error.key naming the member.
 */
bite_status bite_style_check(const bite_style *style, bite_sink sink, uint32_t formats,
                             bite_error *error);

#endif
