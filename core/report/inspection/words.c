/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sentences about what a record proves. */
#include "core/report/inspection/words.h"
#include "core/base/display_text.h"
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char bite_decision_rule[] =
    "Decided by ISO 14253-1 at 95 %: a size conforms if its reading, at 20 degC (ISO 1), lies "
    "within the limits less a guard band of 1.645 standard uncertainties on each side; it does not "
    "conform beyond the limits by as much; between the two neither is proven. Chances and risks by "
    "JCGM 106.";

void bite_sentence(bite_sentences *sentences, const char *form, ...)
{
    va_list list;
    if (sentences->count >= BITE_SENTENCES_MAX) {
        return;
    }
    char *text = sentences->text[sentences->count++];
    va_start(list, form);
    int length = vsnprintf(text, BITE_SENTENCE_MAX, form, list);
    va_end(list);
    if (length >= BITE_SENTENCE_MAX) { /* no half of a character */
        text[bite_text_complete_length(text, BITE_SENTENCE_MAX - 1)] = 0;
    }
}

const char *bite_lot_verdict(uint32_t finding)
{
    static const char *const words[BITE_FINDING_COUNT] = {"NOT JUDGED", "CONFORMS", "NOT COMPLETE",
                                                          "NOT PROVEN", "DOES NOT CONFORM"};
    return finding < BITE_FINDING_COUNT ? words[finding] : words[BITE_FINDING_NONE];
}

static const char *plural(size_t count)
{
    return count == 1 ? "" : "s";
}

static void count_parts(const bite_inspection *inspection, bite_sentences *sentences)
{
    double ordered = inspection->record->count;
    size_t measured = inspection->part_count;
    if (isfinite(ordered)) {
        bite_sentence(sentences, "%zu of %s part%s %s measured.", measured,
                      bite_html_count(ordered).text, ordered > 1.0 ? "s" : "",
                      measured == 1 ? "was" : "were");
    } else {
        bite_sentence(sentences,
                      "%zu part%s %s measured; the record does not state how many there are.",
                      measured, plural(measured), measured == 1 ? "was" : "were");
    }
}

static void count_findings(const bite_inspection *inspection, bite_sentences *sentences)
{
    const size_t *found = inspection->found;
    bite_sentence(sentences,
                  "Of these %zu %s to conform in all that was measured, %zu %s proven either way, "
                  "%zu %s not conform%s.",
                  found[BITE_FINDING_CONFORMS] + found[BITE_FINDING_INCOMPLETE],
                  found[BITE_FINDING_CONFORMS] + found[BITE_FINDING_INCOMPLETE] == 1 ? "is proven"
                                                                                     : "are proven",
                  found[BITE_FINDING_NOT_PROVEN],
                  found[BITE_FINDING_NOT_PROVEN] == 1 ? "is not" : "are not",
                  found[BITE_FINDING_DOES_NOT], found[BITE_FINDING_DOES_NOT] == 1 ? "does" : "do",
                  found[BITE_FINDING_NONE] > 0 ? "; the others have no limits" : "");
}

void bite_lot_sentences(const bite_inspection *inspection, bite_sentences *sentences)
{
    count_parts(inspection, sentences);
    if (inspection->part_count > 0) {
        count_findings(inspection, sentences);
    }
    if (inspection->missing > 0) {
        bite_sentence(sentences,
                      "Fewer readings than planned: %zu part%s still to be measured, counted over "
                      "all characteristics.",
                      inspection->missing, plural(inspection->missing));
    }
    if (inspection->missing == 0 && inspection->found[BITE_FINDING_INCOMPLETE] > 0) {
        bite_sentence(sentences, "%zu part%s lack%s a reading that every part is to have.",
                      inspection->found[BITE_FINDING_INCOMPLETE],
                      plural(inspection->found[BITE_FINDING_INCOMPLETE]),
                      inspection->found[BITE_FINDING_INCOMPLETE] == 1 ? "s" : "");
    }
    if (inspection->skipped + inspection->withdrawn + inspection->replaced > 0) {
        bite_sentence(sentences,
                      "%zu reading%s skipped, %zu withdrawn, %zu corrected later; all are listed.",
                      inspection->skipped, plural(inspection->skipped), inspection->withdrawn,
                      inspection->replaced);
    }
    if (inspection->unsettled > 0) {
        bite_sentence(
            sentences,
            "%zu place%s of the record cannot be read, and nobody has settled %s: readings "
            "may be missing there, so that the record proves no conformity.",
            inspection->unsettled, plural(inspection->unsettled),
            inspection->unsettled == 1 ? "it" : "them");
    }
    if (inspection->record->torn_line > 0) {
        bite_sentence(sentences, "The last line of the record was cut off and does not count.");
    }
}

const char *bite_spread_reason(uint32_t state)
{
    static const char *const reasons[] = {
        [BITE_SPREAD_KNOWN] = "",
        [BITE_SPREAD_FEW] = "too few parts (fewer than 10) to know the spread of the process: the "
                            "chances assume nothing about it (prior unknown)",
        [BITE_SPREAD_HIDDEN] = "the readings vary no more than the instrument's uncertainty, which "
                               "hides the spread of the parts (prior unknown)",
        [BITE_SPREAD_NO_UNCERTAINTY] = "the uncertainty of the readings is not known (prior "
                                       "unknown)"};
    return state < sizeof reasons / sizeof *reasons ? reasons[state] : "";
}

const char *bite_gauge_reason(uint32_t state)
{
    static const char *const reasons[] = {
        [BITE_GAUGE_STUDIED] = "",
        [BITE_GAUGE_ONE_PERSON] = "readings of two or more persons are needed",
        [BITE_GAUGE_ONE_PART] = "two or more parts are needed",
        [BITE_GAUGE_NO_REPEATS] = "every person must read every part at least twice",
        [BITE_GAUGE_UNEVEN] = "every person must read every part equally often",
        [BITE_GAUGE_TOO_MANY] = "at most 100 persons and 1000 parts are studied"};
    return state < sizeof reasons / sizeof *reasons ? reasons[state] : "";
}

const char *bite_reading_state_word(uint32_t state)
{
    static const char *const words[] = {[BITE_READING_STANDS] = "stands",
                                        [BITE_READING_REPLACED] = "corrected later",
                                        [BITE_READING_WITHDRAWN] = "withdrawn",
                                        [BITE_READING_SKIPPED] = "skipped"};
    return state < sizeof words / sizeof *words ? words[state] : "";
}

void bite_pressed_sentence(const bite_size_form *form, const bite_characteristic *characteristic,
                           const bite_characteristic_result *result, bite_sentences *sentences)
{
    if (result->part_count > 0 && characteristic->pressed > result->guard) {
        bite_sentence(sentences,
                      "%s: the force of the instrument changes a reading by about %s, as "
                      "calculated, which is more than the guard band; the finding is that of the "
                      "part as it was pressed. Measure it without contact, or support it.",
                      characteristic->what,
                      bite_size_spread_text(form, characteristic->pressed).text);
    }
}

/* ---- feedback ---- */

static void mean_sentence(const bite_size_form *form, const bite_wear_offset *offset,
                          bite_sentences *sentences)
{
    const char *what = offset->walls > 1.0 ? "on each wall" : "on the floor or face";
    bite_sentence(
        sentences,
        "Offset: the mean is %s, %s from the target of %s (standard uncertainty %s), that "
        "is %s of material %s %s.",
        bite_size_text(form, offset->mean).text, bite_size_change(form, offset->deviation).text,
        bite_size_text(form, offset->target).text,
        bite_size_spread_text(form, offset->uncertainty).text,
        bite_size_spread_text(form, fabs(offset->left)).text,
        offset->left < 0.0 ? "taken too much" : "left", what);
    if (!isnan(offset->spread)) {
        bite_sentence(sentences,
                      "Spread from part to part: %s (standard deviation), of which %s is more than "
                      "the instrument explains.",
                      bite_size_spread_text(form, offset->spread).text,
                      bite_size_spread_text(form, offset->parts_spread).text);
    }
}

static void match_sentence(const bite_size_form *form, const bite_characteristic *characteristic,
                           const bite_wear_offset *offset, bite_sentences *sentences)
{
    bite_html_string low = bite_size_spread_text(form, characteristic->wall_error_low);
    bite_html_string high = bite_size_spread_text(form, characteristic->wall_error_high);
    bite_html_string rest = bite_size_spread_text(form, offset->unexplained);
    switch (offset->match) {
    case BITE_MATCH_WITHIN:
        bite_sentence(
            sentences,
            "The wall error predicted for the pass, %s to %s, covers it: the cut bends as "
            "calculated.",
            low.text, high.text);
        break;
    case BITE_MATCH_BEYOND:
        bite_sentence(
            sentences,
            "The wall error predicted for the pass, %s to %s, does not cover it: %s on each "
            "wall come from the tool's size, its wear or its runout.",
            low.text, high.text, rest.text);
        break;
    case BITE_MATCH_UNCLEAR:
        bite_sentence(
            sentences,
            "It is %s more than the wall error predicted for the pass, %s to %s, which is "
            "within its uncertainty.",
            rest.text, low.text, high.text);
        break;
    default:
        break;
    }
}

static void correction_sentence(const bite_size_form *form, const bite_wear_offset *offset,
                                bite_sentences *sentences)
{
    if (!offset->corrects) {
        bite_sentence(sentences,
                      "Next cut: leave the offset as it is; the deviation is not beyond twice its "
                      "uncertainty, and correcting noise makes parts worse.");
        return;
    }
    if (offset->kind == BITE_OFFSET_RADIUS) {
        bite_sentence(
            sentences,
            "Next cut: add %s to the wear offset of the tool's radius, or %s if the control "
            "takes the diameter. Positive keeps the tool further from the wall: outside "
            "sizes grow, inside sizes shrink.",
            bite_size_change(form, offset->radius).text,
            bite_size_change(form, offset->diameter).text);
    } else {
        bite_sentence(
            sentences,
            "Next cut: add %s to the wear offset of the tool's length. Positive lifts the "
            "tool: floors and faces rise.",
            bite_size_change(form, offset->length).text);
    }
}

void bite_offset_sentences(const bite_size_form *form, const bite_characteristic *characteristic,
                           const bite_wear_offset *offset, bite_sentences *sentences)
{
    if (offset->kind == BITE_OFFSET_NONE) {
        return;
    }
    mean_sentence(form, offset, sentences);
    match_sentence(form, characteristic, offset, sentences);
    if (offset->drifts) {
        bite_sentence(
            sentences,
            "The size drifts by %s with each part, more than three times the uncertainty of "
            "that: the tool wears, or the machine warms up. The next part would have %s.",
            bite_size_spread_text(form, offset->drift).text,
            bite_size_text(form, offset->expected).text);
    }
    correction_sentence(form, offset, sentences);
}

/* The columns of tests/field/cases.csv. */
const char bite_observation_columns[] =
    "id,evidence,grade,tool_mm,flutes,rpm,feed_mm_min,ap_mm,ap_most_mm,ae_mm,stickout_mm,coolant,"
    "machine,outcome,shape,said_material,source,entry,entry_feed_mm_min,more";

/* A text as a field: what would end the field or the line becomes a blank. */
static void field(char *to, size_t size, const char *from)
{
    (void)snprintf(to, size, "%.79s", from);
    to[bite_text_complete_length(to, strlen(to))] = 0;
    for (char *at = to; *at != 0; at++) {
        *at = strchr(",\"\r\n", *at) != NULL ? ' ' : *at;
    }
}

/* A diameter such as "2 mm", in mm; "" if the text is a name. */
static bite_html_string diameter_mm(const char *tool)
{
    bite_html_string string = {""};
    double diameter = 0.0;
    if (bite_quantity_read(tool, BITE_KIND_LENGTH, &diameter, NULL) == BITE_OK) {
        string = bite_plain_number(diameter * 1e3, 6);
    }
    return string;
}

void bite_observation_line(const bite_inspection *inspection, size_t characteristic,
                           char line[BITE_SENTENCE_MAX])
{
    const struct bite_record *record = inspection->record;
    const bite_characteristic *cut = &record->characteristics[characteristic];
    const bite_characteristic_result *result = &inspection->characteristics[characteristic];
    char grade[80];
    char machine[80];
    char source[80];
    int trouble = result->finding == BITE_FINDING_DOES_NOT;
    line[0] = 0;
    if (cut->pass == 0 || result->offset.kind != BITE_OFFSET_RADIUS ||
        (result->finding != BITE_FINDING_CONFORMS && result->finding != BITE_FINDING_INCOMPLETE &&
         !trouble)) {
        return;
    }
    field(grade, sizeof grade, record->material);
    field(machine, sizeof machine, record->machine);
    machine[strchr(machine, ' ') == NULL ? strlen(machine) : 0] = 0; /* a class is one word */
    field(source, sizeof source,
          record->report_number[0] != 0 ? record->report_number : record->job);
    (void)snprintf(line, BITE_SENTENCE_MAX, "M%u,A,%s,%s,,,,,,,,,%s,%s,square,,measured: %s,,,",
                   (unsigned)cut->number, grade, diameter_mm(cut->tool).text, machine,
                   trouble ? "size_error" : "ok", source);
}
