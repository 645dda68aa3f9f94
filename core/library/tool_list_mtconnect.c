/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cutting tools of an MTConnect asset (MTConnect 2.4, CuttingTool and CuttingToolArchetype).
 * The parser is expat, which is optional. A document type is refused, so that no entity is
 * expanded. */
#include "core/library/tool_list_mtconnect.h"
#include "core/base/error.h"
#include "core/base/text.h"
#include <stdio.h>
#include <string.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#ifndef BITE_HAVE_EXPAT

bite_status bite_tool_list_mtconnect(bite_tool_rows *rows, const char *text, size_t size,
                                     bite_error *error)
{
    (void)text;
    (void)size;
    bite_error_set(error, BITE_BAD_FILE, "this build reads no XML: it was made without expat");
    bite_error_hint(error, "write the list as CSV");
    return bite_tool_rows_blame(rows, 1, "", "", error);
}

#else

#include <expat.h>

#define DEPTH_MAX 32 /* elements within each other; the schema needs ten */

/* Elements of Measurements without a code that is a symbol of ISO 13399. */
static const struct {
    const char *element;
    const char *symbol;
} elements[] = {
    {"CuttingDiameterMax", "DC"}, {"CuttingDiameter", "DC"},   {"DepthOfCutMax", "APMX"},
    {"UsableLengthMax", "LU"},    {"ShankDiameter", "DCONMS"}, {"ProtrudingLength", "LPR"},
    {"CornerRadius", "RE"},       {"PointAngle", "SIG"},       {"ToolCuttingEdgeAngle", "KAPR"}};

/* Units of MTConnect. */
static const struct {
    const char *name;
    const char *unit;
} units[] = {{"MILLIMETER", "mm"}, {"INCH", "in"}, {"DEGREE", "deg"}, {"COUNT", ""}};

typedef struct reader {
    bite_tool_rows *rows;
    XML_Parser parser;
    bite_status status;
    bite_error *error;
    unsigned depth;
    unsigned tool_depth;            /* of the element CuttingTool; 0: outside */
    unsigned measures_depth;        /* of the element Measurements; 0: outside */
    bool in_status;                 /* in the element Status */
    bool unusable;                  /* the tool is broken or spent */
    const bite_tool_symbol *symbol; /* of the measurement; NULL: outside, or not used here */
    const char *unit;
    char column[BITE_TOOL_CELL_MAX];
    char text[BITE_TOOL_CELL_MAX]; /* of the measurement or status so far */
    size_t length;
    bite_tool_row row;
} reader;

static uint32_t line_of(const reader *at)
{
    return (uint32_t)XML_GetCurrentLineNumber(at->parser);
}

static void stop(reader *at, bite_status status)
{
    if (at->status == BITE_OK) {
        at->status = status;
    }
    (void)XML_StopParser(at->parser, XML_FALSE);
}

static void refuse(reader *at, const char *what, const char *message)
{
    if (at->status == BITE_OK) {
        bite_error_set(at->error, BITE_BAD_FILE, "%s", message);
        stop(at, bite_tool_rows_blame(at->rows, line_of(at), at->row.name, what, at->error));
    }
}

/* The name of an element or attribute without its namespace. */
static const char *local(const char *name)
{
    const char *bar = strrchr(name, '|');
    return bar == NULL ? name : bar + 1;
}

static const char *attribute(const char **attributes, const char *name)
{
    for (size_t i = 0; attributes[i] != NULL; i += 2) {
        if (strcmp(local(attributes[i]), name) == 0) {
            return attributes[i + 1];
        }
    }
    return NULL;
}

/* A tool is named by its toolId; one that begins with a digit, as a tool number does, gets a T. */
static void begin_tool(reader *at, const char **attributes)
{
    const char *id = attribute(attributes, "toolId");
    char name[BITE_TOOL_CELL_MAX];
    memset(&at->row, 0, sizeof at->row);
    at->row.line = line_of(at);
    at->tool_depth = at->depth;
    at->unusable = false;
    if (id == NULL || id[0] == 0) {
        refuse(at, "toolId", "the tool has no toolId");
        return;
    }
    if ((size_t)snprintf(name, sizeof name, "%s%s", bite_text_is_digit(id[0]) ? "T" : "", id) >=
        sizeof name) {
        refuse(at, "toolId", "the toolId is too long: at most 62 bytes");
        return;
    }
    for (char *c = name; *c != 0; c++) {
        *c = *c == ' ' || *c == ',' ? '-' : *c;
    }
    bite_status status = bite_tool_rows_word(at->rows, at->row.line, "toolId", name, strlen(name),
                                             at->row.name, sizeof at->row.name, at->error);
    if (status != BITE_OK) {
        stop(at, status);
    }
}

/* A measurement by its code, else by its element. One that is stated of several cutting items
 * counts once, as the first states it. */
static void begin_measurement(reader *at, const char *element, const char **attributes)
{
    const char *code = attribute(attributes, "code");
    const char *stated = attribute(attributes, "units");
    const bite_tool_symbol *symbol =
        code == NULL ? NULL : bite_tool_symbol_find(code, strlen(code));
    for (size_t i = 0; symbol == NULL && i < sizeof elements / sizeof *elements; i++) {
        if (strcmp(elements[i].element, element) == 0) {
            symbol = bite_tool_symbol_find(elements[i].symbol, strlen(elements[i].symbol));
        }
    }
    for (size_t i = 0; symbol != NULL && i < at->row.cell_count; i++) {
        symbol = at->row.cells[i].symbol == symbol ? NULL : symbol;
    }
    if (symbol == NULL || symbol->use == BITE_SYMBOL_NONE) {
        return;
    }
    at->unit = symbol->kind == BITE_KIND_LENGTH  ? "mm" /* the units that the standard names */
               : symbol->kind == BITE_KIND_ANGLE ? "deg"
                                                 : "";
    for (size_t i = 0; stated != NULL && i < sizeof units / sizeof *units; i++) {
        if (strcmp(units[i].name, stated) == 0) {
            at->unit = units[i].unit;
            stated = NULL;
        }
    }
    (void)snprintf(at->column, sizeof at->column, "%.60s", element);
    if (stated != NULL) {
        refuse(at, at->column, "its units are not known here: MILLIMETER, INCH, DEGREE or COUNT");
        return;
    }
    const char *nominal = attribute(attributes, "nominal");
    at->symbol = symbol;
    at->length = 0;
    at->text[0] = 0;
    if (nominal != NULL) { /* counts if the element has no text */
        (void)snprintf(at->text, sizeof at->text, "%.60s", nominal);
    }
}

static void XMLCALL begin_element(void *user, const char *name, const char **attributes)
{
    reader *at = user;
    const char *element = local(name);
    if (++at->depth > DEPTH_MAX) {
        refuse(at, "", "the elements are nested too deeply");
        return;
    }
    if (at->tool_depth == 0) {
        if (strcmp(element, "CuttingTool") == 0 || strcmp(element, "CuttingToolArchetype") == 0) {
            begin_tool(at, attributes);
        }
    } else if (at->measures_depth != 0 && at->depth == at->measures_depth + 1) {
        begin_measurement(at, element, attributes);
    } else if (strcmp(element, "Measurements") == 0) {
        at->measures_depth = at->depth;
    } else if (strcmp(element, "Status") == 0) {
        at->in_status = true;
        at->length = 0;
        at->text[0] = 0;
    }
}

static void XMLCALL add_text(void *user, const char *text, int size)
{
    reader *at = user;
    bool measured = at->symbol != NULL && at->depth == at->measures_depth + 1;
    if (!measured && !at->in_status) { /* what stands within a measurement is no part of it */
        return;
    }
    for (int i = 0; i < size; i++) {
        bool blank = strchr(" \t\r\n", text[i]) != NULL;
        if (blank && at->length == 0) {
            continue;
        }
        if (at->length + 1 >= sizeof at->text) {
            refuse(at, measured ? at->column : "Status", "the text is too long");
            return;
        }
        at->text[at->length++] = blank ? ' ' : text[i];
        at->text[at->length] = 0;
    }
}

static void end_tool(reader *at)
{
    at->tool_depth = 0;
    if (at->unusable) {
        return;
    }
    bite_status status = bite_tool_rows_add(at->rows, &at->row, at->error);
    if (status != BITE_OK) {
        stop(at, status);
    }
}

static void XMLCALL end_element(void *user, const char *name)
{
    reader *at = user;
    (void)name;
    if (at->symbol != NULL && at->depth == at->measures_depth + 1) {
        bite_status status = bite_tool_row_set(at->rows, &at->row, at->symbol, at->column, at->text,
                                               strlen(at->text), at->unit, at->error);
        at->symbol = NULL;
        if (status != BITE_OK) {
            stop(at, status);
        }
    }
    if (at->in_status) {
        at->unusable |= strncmp(at->text, "BROKEN", 6) == 0 || strncmp(at->text, "EXPIRED", 7) == 0;
        at->in_status = false;
    }
    if (at->depth == at->measures_depth) {
        at->measures_depth = 0;
    }
    if (at->depth == at->tool_depth && at->status == BITE_OK) {
        end_tool(at);
    }
    at->depth--;
}

static void XMLCALL begin_doctype(void *user, const char *name, const char *system_id,
                                  const char *public_id, int internal)
{
    (void)name;
    (void)system_id;
    (void)public_id;
    (void)internal;
    refuse(user, "", "an asset has no document type; entities are not expanded");
}

static bite_status report_syntax(const reader *at, bite_error *error)
{
    enum XML_Error code = XML_GetErrorCode(at->parser);
    if (code == XML_ERROR_NO_MEMORY) {
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a tool list");
    }
    bite_error_set(error, BITE_BAD_FILE, "it is not sound XML: %.80s", XML_ErrorString(code));
    return bite_tool_rows_blame(at->rows, line_of(at), "", "", error);
}

bite_status bite_tool_list_mtconnect(bite_tool_rows *rows, const char *text, size_t size,
                                     bite_error *error)
{
    reader *at = bite_memory_new(rows->allocator, 1, sizeof *at);
    XML_Parser parser = at == NULL ? NULL : XML_ParserCreateNS(NULL, '|');
    if (parser == NULL) {
        bite_memory_free(rows->allocator, at);
        return bite_error_set(error, BITE_NO_MEMORY, "no memory for a tool list");
    }
    at->rows = rows;
    at->parser = parser;
    at->error = error;
    at->unit = "";
    XML_SetUserData(parser, at);
    XML_SetElementHandler(parser, begin_element, end_element);
    XML_SetCharacterDataHandler(parser, add_text);
    XML_SetStartDoctypeDeclHandler(parser, begin_doctype);
    bool sound = XML_Parse(parser, text, (int)size, XML_TRUE) == XML_STATUS_OK;
    bite_status status = at->status != BITE_OK ? at->status
                         : sound               ? BITE_OK
                                               : report_syntax(at, error);
    XML_ParserFree(parser);
    bite_memory_free(rows->allocator, at);
    return status;
}

#endif
