/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program of the build: writes coolbite(1) and the shell completions from the table of options,
 * so that neither can lag behind the command line.
 *
 *   manual_writer manual <coolbite.1.in >coolbite.1
 *   manual_writer bash|zsh|fish >FILE
 */
#include "bindings/cli/option_table.h"
#include <stdio.h>
#include <string.h>

#define LINE_MOST 512

/* A command for any of the shells: the names of a collection, one a line. */
static void put_names_of(const char *collection)
{
    printf("coolbite list %s --format json 2>/dev/null |\n", collection);
    printf("        sed -n 's/.*{\"name\": \"\\([^\"]*\\)\".*/\\1/p'");
}

static bool takes(enum command_id command, const struct cli_option *option)
{
    return (option->commands & 1u << command) != 0;
}

static bool is_file(const struct cli_option *option)
{
    return option->type == OPTION_OUTPUT || option->type == OPTION_SHEET ||
           option->type == OPTION_REPORT;
}

/* What `coolbite list` calls the things that the option selects; NULL: it selects none. */
static const char *list_of(const struct cli_option *option)
{
    static const struct {
        bite_collection collection;
        const char *word;
    } lists[] = {{BITE_GRADES, "materials"},  {BITE_TOOLS, "tools"}, {BITE_HOLDERS, "holders"},
                 {BITE_MACHINES, "machines"}, {BITE_HOLDS, "holds"}, {BITE_COOLANTS, "coolants"},
                 {BITE_SYMPTOMS, "symptoms"}};
    if (option->type != OPTION_ITEM && option->type != OPTION_TOOL &&
        option->type != OPTION_AFTER) {
        return NULL;
    }
    for (size_t i = 0; i < sizeof lists / sizeof *lists; i++) {
        if (lists[i].collection == option->collection) {
            return lists[i].word;
        }
    }
    return NULL;
}

/* The text, with each byte of `special` written as its replacement. */
static void put_escaped(const char *text, const char *special, const char *const *replacements)
{
    for (; *text != 0; text++) {
        const char *at = strchr(special, *text);
        if (at == NULL) {
            putchar(*text);
        } else {
            fputs(replacements[at - special], stdout);
        }
    }
}

static void put_formats(enum command_id command)
{
    const char *before = "";
    for (size_t i = 0; i < output_format_count; i++) {
        if ((output_formats[i].commands & 1u << command) != 0) {
            printf("%s%s", before, output_formats[i].word);
            before = " ";
        }
    }
}

/* ---- coolbite(1) ----------------------------------------------------------------------------- */

static void put_roff(const char *text)
{
    static const char *const replacements[] = {"\\-", "\\e", "\\(dq", "\\(aq"};
    put_escaped(text, "-\\\"'", replacements);
}

/* "cut, choose, window"; nothing if every command takes the option. */
static void put_commands_of(const struct cli_option *option)
{
    const char *before = " (";
    if (option->commands == (1u << COMMAND_COUNT) - 1) {
        return;
    }
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (takes((enum command_id)i, option)) {
            printf("%s%s", before, commands[i].word);
            before = ", ";
        }
    }
    putchar(')');
}

static void write_manual_commands(void)
{
    for (int i = 0; i < COMMAND_COUNT; i++) {
        printf(".TP\n.BI \"coolbite %s \" \"", commands[i].word);
        put_roff(commands[i].synopsis);
        printf("\"\n");
        put_roff(commands[i].help);
        putchar('\n');
    }
}

static void write_manual_options(void)
{
    for (size_t i = 0; i < option_count; i++) {
        const struct cli_option *option = &option_table[i];
        printf(".TP\n.BI \\-\\-");
        put_roff(option->word);
        if (option->argument != NULL) {
            printf(" \" ");
            put_roff(option->argument);
            printf("\"");
        }
        printf("\n\\&");
        put_roff(option->help);
        put_commands_of(option);
        printf(".\n");
    }
}

/* Copies the page, with the two parts that the table makes and the version in their places. */
static int write_manual(void)
{
    static const char version[] = "@VERSION@";
    char line[LINE_MOST];
    int parts = 0;
    while (fgets(line, sizeof line, stdin) != NULL) {
        char *place = strstr(line, version);
        if (strcmp(line, "@COMMANDS@\n") == 0) {
            write_manual_commands();
            parts++;
        } else if (strcmp(line, "@OPTIONS@\n") == 0) {
            write_manual_options();
            parts++;
        } else if (place != NULL) {
            printf("%.*s%s%s", (int)(place - line), line, BITE_VERSION_TEXT,
                   place + sizeof version - 1);
        } else {
            fputs(line, stdout);
        }
    }
    return ferror(stdin) || parts != 2;
}

/* ---- bash ------------------------------------------------------------------------------------ */

static void write_bash_words(void)
{
    for (size_t i = 0; i < option_count; i++) {
        const struct cli_option *option = &option_table[i];
        if (option->argument == NULL) {
            continue;
        }
        if (option->type == OPTION_FORMAT) {
            for (int c = 0; c < COMMAND_COUNT; c++) {
                printf("        %s:--%s) words='", commands[c].word, option->word);
                put_formats((enum command_id)c);
                printf("' ;;\n");
            }
            continue;
        }
        printf("        *:--%s) ", option->word);
        if (is_file(option)) {
            printf("compopt -o filenames 2>/dev/null; "
                   "mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return ;;\n");
        } else if (list_of(option) != NULL) {
            printf("words=$(_coolbite_names %s) ;;\n", list_of(option));
        } else {
            printf("words='%s' ;;\n", option->words == NULL ? "" : option->words);
        }
    }
}

static void write_bash_command(enum command_id command)
{
    printf("        %s:*)\n", commands[command].word);
    if (commands[command].reads_file) {
        printf("            case $word in\n                -*) ;;\n"
               "                *) compopt -o filenames 2>/dev/null; "
               "mapfile -t COMPREPLY < <(compgen -f -- \"$word\"); return ;;\n"
               "            esac\n");
    }
    printf("            words='%s", commands[command].words == NULL ? "" : commands[command].words);
    for (size_t i = 0; i < option_count; i++) {
        if (takes(command, &option_table[i])) {
            printf(" --%s", option_table[i].word);
        }
    }
    printf("' ;;\n");
}

static void write_bash(void)
{
    printf("# SPDX-License-Identifier: GPL-3.0-or-later\n"
           "# Completion of coolbite for bash, made from its table of options.\n"
           "_coolbite_names()\n{\n    ");
    put_names_of("\"$1\"");
    printf("\n}\n\n_coolbite()\n{\n"
           "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} words=\n"
           "    COMPREPLY=()\n"
           "    local command=${COMP_WORDS[1]}\n"
           "    [ \"$COMP_CWORD\" -gt 1 ] || command=\n"
           "    case $command:$before in\n"
           "        :*) words='");
    for (int i = 0; i < COMMAND_COUNT; i++) {
        printf("%s ", commands[i].word);
    }
    printf("--help --version' ;;\n");
    write_bash_words();
    for (int i = 0; i < COMMAND_COUNT; i++) {
        write_bash_command((enum command_id)i);
    }
    printf("    esac\n"
           "    mapfile -t COMPREPLY < <(compgen -W \"$words\" -- \"$word\")\n"
           "}\ncomplete -F _coolbite coolbite\n");
}

/* ---- zsh ------------------------------------------------------------------------------------- */

static void put_zsh(const char *text)
{
    static const char *const replacements[] = {"'\\''", "\\:", "\\[", "\\]", "\\\\"};
    put_escaped(text, "':[]\\", replacements);
}

static void write_zsh_option(enum command_id command, const struct cli_option *option)
{
    printf("                '*--%s%s[", option->word, option->argument == NULL ? "" : "=");
    put_zsh(option->help);
    putchar(']');
    if (option->argument != NULL) {
        putchar(':');
        put_zsh(option->argument);
        putchar(':');
        if (option->type == OPTION_FORMAT) {
            putchar('(');
            put_formats(command);
            putchar(')');
        } else if (is_file(option)) {
            printf("_files");
        } else if (list_of(option) != NULL) {
            printf("{_coolbite_names %s}", list_of(option));
        } else if (option->words != NULL) {
            printf("(%s)", option->words);
        } else {
            putchar(' ');
        }
    }
    printf("' \\\n");
}

static void write_zsh_command(enum command_id command)
{
    printf("        %s)\n            _arguments \\\n", commands[command].word);
    for (size_t i = 0; i < option_count; i++) {
        if (takes(command, &option_table[i])) {
            write_zsh_option(command, &option_table[i]);
        }
    }
    if (commands[command].reads_file) {
        printf("                '1:file:_files'");
    } else if (commands[command].words != NULL) {
        printf("                '1:what:(%s)'", commands[command].words);
    } else {
        printf("                '*:name: '");
    }
    printf(" ;;\n");
}

static void write_zsh(void)
{
    printf("#compdef coolbite\n"
           "# SPDX-License-Identifier: GPL-3.0-or-later\n"
           "# Completion of coolbite for zsh, made from its table of options.\n"
           "_coolbite_names()\n{\n    local -a names\n    names=(${(f)\"$(");
    put_names_of("$1");
    printf(")\"})\n    compadd -a names\n}\n\n"
           "_coolbite()\n{\n    local -a commands\n    commands=(\n");
    for (int i = 0; i < COMMAND_COUNT; i++) {
        printf("        '%s:", commands[i].word);
        put_zsh(commands[i].help);
        printf("'\n");
    }
    printf("    )\n    if (( CURRENT == 2 )); then\n"
           "        _describe command commands\n"
           "        compadd -- --help --version\n"
           "        return\n    fi\n"
           "    local command=$words[2]\n"
           "    shift words\n    (( CURRENT-- ))\n    case $command in\n");
    for (int i = 0; i < COMMAND_COUNT; i++) {
        write_zsh_command((enum command_id)i);
    }
    printf("    esac\n}\n\n_coolbite \"$@\"\n");
}

/* ---- fish ------------------------------------------------------------------------------------ */

static void put_fish(const char *text)
{
    static const char *const replacements[] = {"\\'", "\\\\"};
    put_escaped(text, "'\\", replacements);
}

static void put_fish_option(const struct cli_option *option)
{
    printf(" -l %s", option->word);
    if (is_file(option)) {
        printf(" -r -F");
    } else if (list_of(option) != NULL) {
        printf(" -x -a '(_coolbite_names %s)'", list_of(option));
    } else if (option->words != NULL) {
        printf(" -x -a '%s'", option->words);
    } else if (option->argument != NULL) {
        printf(" -x");
    }
    printf(" -d '");
    put_fish(option->help);
    printf("'\n");
}

static void write_fish_option(const struct cli_option *option)
{
    if (option->type == OPTION_FORMAT) {
        for (int c = 0; c < COMMAND_COUNT; c++) {
            printf("complete -c coolbite -n '__fish_seen_subcommand_from %s' -l %s -x -a '",
                   commands[c].word, option->word);
            put_formats((enum command_id)c);
            printf("' -d '");
            put_fish(option->help);
            printf("'\n");
        }
        return;
    }
    printf("complete -c coolbite -n '__fish_seen_subcommand_from");
    for (int i = 0; i < COMMAND_COUNT; i++) {
        if (takes((enum command_id)i, option)) {
            printf(" %s", commands[i].word);
        }
    }
    putchar('\'');
    put_fish_option(option);
}

static void write_fish(void)
{
    printf("# SPDX-License-Identifier: GPL-3.0-or-later\n"
           "# Completion of coolbite for fish, made from its table of options.\n"
           "function _coolbite_names\n    ");
    put_names_of("$argv[1]");
    printf("\nend\n\ncomplete -c coolbite -f\n"
           "complete -c coolbite -n __fish_use_subcommand -l help -d 'show this help'\n"
           "complete -c coolbite -n __fish_use_subcommand -l version -d 'show the version'\n");
    for (int i = 0; i < COMMAND_COUNT; i++) {
        printf("complete -c coolbite -n __fish_use_subcommand -a %s -d '", commands[i].word);
        put_fish(commands[i].help);
        printf("'\n");
        if (commands[i].words != NULL || commands[i].reads_file) {
            printf("complete -c coolbite -n '__fish_seen_subcommand_from %s' ", commands[i].word);
            if (commands[i].reads_file) {
                printf("-F\n");
            } else {
                printf("-a '%s'\n", commands[i].words);
            }
        }
    }
    for (size_t i = 0; i < option_count; i++) {
        write_fish_option(&option_table[i]);
    }
}

int main(int argc, char **argv)
{
    const char *what = argc == 2 ? argv[1] : "";
    int failed = 0;
    if (strcmp(what, "manual") == 0) {
        failed = write_manual();
    } else if (strcmp(what, "bash") == 0) {
        write_bash();
    } else if (strcmp(what, "zsh") == 0) {
        write_zsh();
    } else if (strcmp(what, "fish") == 0) {
        write_fish();
    } else {
        failed = 1;
    }
    if (failed != 0) {
        fprintf(stderr, "manual_writer: expected manual (with both of @COMMANDS@ and @OPTIONS@ on "
                        "standard input), bash, zsh or fish\n");
    }
    return failed != 0 || fflush(stdout) != 0 || ferror(stdout);
}
