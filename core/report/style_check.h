/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checks of the caller's bite_style. */
#ifndef BITE_REPORT_STYLE_CHECK_H
#define BITE_REPORT_STYLE_CHECK_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** Sets of formats, for bite_style_check. */
#define BITE_STYLE_FORMAT(format) (1u << (format))
#define BITE_STYLE_PAGE (BITE_STYLE_FORMAT(BITE_TEXT) | BITE_STYLE_FORMAT(BITE_JSON))

#define BITE_STYLE_ANY UINT32_MAX

/**
 * Checks the sink and style that a writer is called with: the sink is given, and the style has the
 * size of some header, known units and a format that the writer supports.
 *
 * style: NULL is the default style, which is valid. formats: a set of BITE_STYLE_FORMAT bits.
 * BITE_BAD_ARGUMENT: error.key names the member that is wrong.
 */
bite_status bite_style_check(const bite_style *style, bite_sink sink, uint32_t formats,
                             bite_error *error);

/** Whether JSON is to be written without blanks and line ends. style: checked, or NULL. */
bool bite_style_is_compact(const bite_style *style);

/** A copy of a style, whatever header it was built with. style: checked, or NULL. */
bite_style bite_style_copy(const bite_style *style);

#endif
