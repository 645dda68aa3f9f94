/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Text that is safe to display.
 *
 * Names, paths and sentences come from tables, plugins and callers. All of them pass this one check
 * before they reach an output: a terminal obeys escape sequences, a change of direction makes a
 * number read backwards, and JSON must be UTF-8. bite_text_escape is declared in
 * coolbite/coolbite.h.
 */
#ifndef BITE_BASE_DISPLAY_TEXT_H
#define BITE_BASE_DISPLAY_TEXT_H

#include "core/base/memory.h"
#include <coolbite/coolbite.h>
#include <stdbool.h>

/** Why a text must not be displayed as it is. */
typedef enum bite_text_fault {
    BITE_TEXT_SOUND = 0,
    BITE_TEXT_MALFORMED,   /* not UTF-8 */
    BITE_TEXT_CONTROL,     /* a control character, or one that ends a line or a paragraph */
    BITE_TEXT_DIRECTION,   /* changes the direction of writing */
    BITE_TEXT_NO_CHARACTER /* well-formed, but a Unicode noncharacter, BOM or annotation mark */
} bite_text_fault;

/** The fault in words that can follow "has": "a control character in it"; "" for BITE_TEXT_SOUND.
 * Borrowed, for ever. */
const char *bite_text_fault_name(bite_text_fault fault);

/**
 * Checks the first character of a text. Returns its bytes (1 if it is malformed); *fault: what is
 * wrong with it.
 *
 * length: bytes of the text, at least 1. allowed: control characters that are accepted, such as
 * "\t".
 */
size_t bite_text_character(const char *text, size_t length, const char *allowed,
                           bite_text_fault *fault);

/** Checks every character and returns the first fault. *bad (may be NULL): the byte offset of the
 * character at fault; not written if there is none. */
bite_text_fault bite_text_check(const char *text, size_t length, const char *allowed, size_t *bad);

/** Bytes of text[0..length) without an incomplete character at its end, such as truncation leaves.
 */
size_t bite_text_complete_length(const char *text, size_t length);

/** The text as bite_text_escape writes it, allocated in the arena; NULL: no memory. */
char *bite_text_escaped(bite_arena *arena, const char *text);

#endif
