/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a command line, words ended by 0 or a line end: it is read, or refused with a status
 * of sysexits.h. The first byte chooses the command. */
#include "bindings/cli/exit_status.h"
#include "bindings/cli/options.h"
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

extern const long bite_fuzz_rounds;
const long bite_fuzz_rounds = 3000;

#define WORDS_MOST 200

/* What is refused is told on standard error, which must not hide what a sanitizer says there. */
static void be_quiet(void)
{
    static FILE *nowhere;
    if (nowhere == NULL) {
#ifdef __GLIBC__
        nowhere = fopen("/dev/null", "w");
        stderr = nowhere != NULL ? nowhere : stderr;
#else
        nowhere = freopen("/dev/null", "w", stderr);
#endif
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct command_line line;
    char *words[WORDS_MOST + 1] = {(char *)"command"};
    int count = 1;
    if (size == 0) {
        return 0;
    }
    be_quiet();
    char *text = malloc(size);
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data + 1, size - 1);
    text[size - 1] = 0;
    for (char *at = text; at < text + size && count < WORDS_MOST; at += strlen(at) + 1) {
        at[strcspn(at, "\n")] = 0;
        words[count++] = at;
    }
    memset(&line, 0, sizeof line);
    int status = options_parse(count, words, (enum command_id)(data[0] % COMMAND_COUNT), &line);
    status = status == 0 ? options_check(&line) : status;
    if (status != 0 && (status < 64 || status > 78)) {
        abort();
    }
    if (status == 0 && (line.input_count > INPUT_OPTIONS_MAX || line.tool_count > TOOLS_MAX ||
                        line.argument_count > ARGUMENTS_MAX)) {
        abort();
    }
    free(text);
    return 0;
}
