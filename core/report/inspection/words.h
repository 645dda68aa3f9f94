/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about what a record proves. */
#ifndef BITE_REPORT_INSPECTION_WORDS_H
#define BITE_REPORT_INSPECTION_WORDS_H

#include "core/inspection/inspection_result.h"
#include "core/report/inspection/size_text.h"

#define BITE_SENTENCE_MAX 512
#define BITE_SENTENCES_MAX 8

/** Sentences in the order in which they are to be read. */
typedef struct bite_sentences {
    size_t count;
    char text[BITE_SENTENCES_MAX][BITE_SENTENCE_MAX];
} bite_sentences;

/** Adds a sentence, which is cut off if it is too long; nothing if there are too many. */
void bite_sentence(bite_sentences *sentences, const char *form, ...) BITE_FORMAT(2, 3);

/** The lot in words: what was measured, what of it is proven, what is missing. */
void bite_lot_sentences(const bite_inspection *inspection, bite_sentences *sentences);

/** The verdict of the lot in capitals, as on its first page: "CONFORMS". Static. */
const char *bite_lot_verdict(uint32_t finding);

/** What decides: the standard, the guard band, the confidence. Static. */
extern const char bite_decision_rule[];

/** Why the spread of the parts is not known, or there is no gauge study; "" if it is. Static. */
const char *bite_spread_reason(uint32_t state);
const char *bite_gauge_reason(uint32_t state);

/** The state of a reading: "stands", "corrected later", "withdrawn", "skipped". Static. */
const char *bite_reading_state_word(uint32_t state);

/** A caution if the instrument's force changes the reading by more than the guard band, by which
 * something is proven; otherwise nothing. */
void bite_pressed_sentence(const bite_size_form *form, const bite_characteristic *characteristic,
                           const bite_characteristic_result *result, bite_sentences *sentences);

/** What the sizes say of the cut, and the wear offset of the next one. */
void bite_offset_sentences(const bite_size_form *form, const bite_characteristic *characteristic,
                           const bite_wear_offset *offset, bite_sentences *sentences);

/** The columns of an observed cut, and its line for a characteristic that a pass makes; "" if
 * nothing is proven of it. What the record does not hold is left empty. */
extern const char bite_observation_columns[];
void bite_observation_line(const bite_inspection *inspection, size_t characteristic,
                           char line[BITE_SENTENCE_MAX]);

#endif
