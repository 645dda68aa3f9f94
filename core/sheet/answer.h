/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged cut, shown. */
#ifndef BITE_SHEET_ANSWER_H
#define BITE_SHEET_ANSWER_H

#include <coolbite/coolbite.h>
#include <jansson.h>

/** The answer as an object; NULL: no memory. */
json_t *bite_answer_object(const bite_answer *answer, bite_units units);
bite_status bite_answer_json(const bite_answer *answer, const bite_style *style, bite_sink sink, void *user, bite_error *error);
bite_status bite_answer_text(const bite_answer *answer, const bite_style *style, bite_sink sink, void *user, bite_error *error);

#endif
