/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cautions of tables: their conditions, and the places in their texts. */
#include "core/library/caution_rule.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include "core/library/judged_name.h"
#include <stdio.h>
#include <string.h>

#define NAME_MOST 120

static bite_status bad_place(bite_error *error, const char *text, const char *open,
                             const char *message, const char *hint)
{
    bite_error_set(error, BITE_BAD_FILE, "%s", message);
    bite_error_hint(error, "%s", hint);
    bite_error_key(error, "text");
    bite_error_place(error, NULL, 0, (uint32_t)(open - text) + 1);
    return BITE_BAD_FILE;
}

static bite_status check_places(const char *text, const bite_field *figures, size_t count,
                                bite_error *error)
{
    for (const char *open = strchr(text, '{'); open != NULL; open = strchr(open + 1, '{')) {
        char name[NAME_MOST];
        char message[NAME_MOST + 60] = "";
        bite_kind kind;
        const char *close = strchr(open, '}');
        const char *start = open + 1;
        size_t length = close == NULL ? 0 : bite_text_trim(&start, (size_t)(close - open) - 1);
        if (length == 0 || length >= sizeof name) {
            return bad_place(error, text, open, "a brace in the text is not closed",
                             "write {name}");
        }
        memcpy(name, start, length);
        name[length] = 0;
        if (!bite_judged_number(name, figures, count, &kind)) {
            (void)snprintf(message, sizeof message, "%s in braces is not a number of a judged cut",
                           name);
            return bad_place(error, text, open, message,
                             "coolbite list inputs, list values and list limits show the names");
        }
    }
    return BITE_OK;
}

bite_status bite_caution_rule_check(bite_arena *arena, bite_caution_rule *rule,
                                    const bite_field *figures, size_t count, bite_error *error)
{
    bite_status status =
        bite_condition_read(arena, rule->when, figures, count, &rule->condition, error);
    if (status != BITE_OK) {
        bite_error_key(error, "when");
        return status;
    }
    return check_places(rule->text, figures, count, error);
}

bool bite_caution_rule_applies(const bite_caution_rule *rule, const bite_case_view *view)
{
    return rule->condition == NULL ||
           bite_condition_holds(rule->condition, view, rule->as_grade, rule->as_family);
}
