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

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct command_line line;
    char *words[WORDS_MOST + 1] = {(char *)"command"};
    int count = 1;
    static bool quiet;
    if (size == 0) {
        return 0;
    }
    if (!quiet) { /* what is refused is told on standard error */
        quiet = freopen("/dev/null", "w", stderr) != NULL;
    }
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
