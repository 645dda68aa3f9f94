/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sources of figures: "grade: where". Common practice and a recalled figure need no reference; all
 * other grades do. */
#include "core/tables/provenance.h"
#include "core/base/text.h"
#include <string.h>

static const struct {
    const char *name;
    bool needs_reference;
} grades[] = {
    [BITE_GRADE_NONE] = {"", false},
    [BITE_GRADE_STANDARD] = {"standard", true},
    [BITE_GRADE_HANDBOOK] = {"handbook", true},
    [BITE_GRADE_PAPER] = {"paper", true},
    [BITE_GRADE_DATASHEET] = {"datasheet", true},
    [BITE_GRADE_COMMON_PRACTICE] = {"common-practice", false},
    [BITE_GRADE_MEMORY] = {"memory", false},
    [BITE_GRADE_ESTIMATE] = {"estimate", true},
};

const char *bite_source_grade_name(bite_source_grade grade)
{
    return (unsigned)grade < sizeof grades / sizeof *grades ? grades[grade].name : "";
}

bool bite_source_read(const char *text, bite_source_grade *grade, const char **where)
{
    const char *colon = strchr(text, ':');
    size_t length = colon == NULL ? strlen(text) : (size_t)(colon - text);
    const char *name = text;
    length = bite_text_trim(&name, length);
    const char *rest = colon == NULL ? text + strlen(text) : colon + 1;
    while (bite_text_is_blank(*rest)) {
        rest++;
    }
    for (size_t i = 1; i < sizeof grades / sizeof *grades; i++) {
        if (strlen(grades[i].name) == length && memcmp(grades[i].name, name, length) == 0) {
            if (*rest == 0 && grades[i].needs_reference) {
                return false;
            }
            *grade = (bite_source_grade)i;
            *where = rest;
            return true;
        }
    }
    return false;
}
