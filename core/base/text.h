/* SPDX-License-Identifier: GPL-3.0-or-later */
/* ASCII text, independent of the locale: case, classes, blanks, and the width on a terminal. */
#ifndef BITE_BASE_TEXT_H
#define BITE_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

/** Whether two texts are equal, ignoring ASCII case. */
bool bite_text_equals(const char *a, const char *b);

/** The same as bite_text_equals_part for designations, which are written in many ways: blanks,
 * hyphens, points and underscores do not count ("EN AW-6082" is "en-aw-6082", "PA 6.6" is "pa66").
 * Names without any other character are compared as they are. */
bool bite_text_same_designation_part(const char *a, size_t length, const char *b);
bool bite_text_same_designation(const char *a, const char *b);
/** Whether a[0..length) equals the whole of b, ignoring ASCII case. */
bool bite_text_equals_part(const char *a, size_t length, const char *b);
/** A comparison of a[0..length) with the whole of b, such as bite_text_equals_part. */
typedef bool (*bite_text_comparison)(const char *a, size_t length, const char *b);
/** The next word of a list that is separated by blanks or commas; *list is moved behind it.
 * *length 0: there are no more. */
const char *bite_text_next_word(const char **list, size_t *length);
/** Whether a word of such a list is the same as another. */
bool bite_text_list_has(const char *list, const char *word, bite_text_comparison same);
bool bite_text_is_blank(char c); /* a space or a tab */
bool bite_text_is_digit(char c);
char bite_text_lower(char c);
/** Drops blanks at both ends: moves *text past those in front and returns the remaining length. */
size_t bite_text_trim(const char **text, size_t length);
/** Terminal columns of a UTF-8 text: its code points without combining marks. */
size_t bite_text_columns(const char *text, size_t length);

#endif
