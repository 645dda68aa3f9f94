/* SPDX-License-Identifier: GPL-3.0-or-later */
/* coolbite new-material: writes a table of a material that is to be filled in. */
#include "bindings/cli/cli_request.h"
#include "bindings/cli/commands.h"
#include "bindings/cli/error_report.h"
#include "bindings/cli/exit_status.h"
#include "bindings/cli/output.h"
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define NAME_MOST 64 /* bytes of a family's or a grade's name */

/** The names of a new material. */
struct new_material {
    char family[NAME_MOST + 1];
    char grade[NAME_MOST + 1];
    char file[NAME_MOST + 8]; /* the name that the file must have */
    const char *like;         /* NULL: nothing */
};

static int is_name(const char *text, size_t length)
{
    return length > 0 && length <= NAME_MOST &&
           strspn(text, "abcdefghijklmnopqrstuvwxyz0123456789-") >= length;
}

static int read_names(const struct command_line *line, struct new_material *made)
{
    const char *text = line->argument_count == 1 ? line->arguments[0] : "";
    size_t length = strcspn(text, "/");
    const char *grade = text[length] == '/' ? text + length + 1 : "plain";
    if (!is_name(text, length) || !is_name(grade, strlen(grade))) {
        return report_usage_error("new-material takes one name, FAMILY or FAMILY/GRADE, of letters "
                                  "a to z, digits and hyphens, such as soap or soap/white");
    }
    (void)snprintf(made->family, sizeof made->family, "%.*s", (int)length, text);
    (void)snprintf(made->grade, sizeof made->grade, "%s", grade);
    (void)snprintf(made->file, sizeof made->file, "%s.ini", made->family);
    made->like = line->like;
    return 0;
}

/* ---- the text ---- */

__attribute__((format(printf, 2, 3))) static int put(struct text_buffer *buffer, const char *format,
                                                     ...)
{
    char text[1200];
    va_list list;
    va_start(list, format);
    int length = vsnprintf(text, sizeof text, format, list);
    va_end(list);
    return length < 0 || (size_t)length >= sizeof text
               ? -1
               : text_buffer_append(buffer, text, (size_t)length);
}

/* The unit in which a shop writes a quantity of this kind: what follows the number. */
static void find_unit(const bite_input *input, char *unit, size_t size)
{
    char text[64] = "";
    size_t length = 0;
    bite_error error = BITE_ERROR_INIT;
    double typical = input->least > 0.0 ? sqrt(input->least * input->most) : 0.01 * input->most;
    if (bite_quantity_write(typical, (bite_kind)input->kind, BITE_METRIC, text, sizeof text,
                            &length, &error) != BITE_OK) {
        text[0] = 0;
    }
    const char *at = text + strspn(text, "+-.0123456789");
    if (at[0] == 'e' && (at[1] == '-' || at[1] == '+')) {
        at += 2 + strspn(at + 2, "0123456789");
    }
    at += strspn(at, " ");
    (void)snprintf(unit, size, "%s%s", at[0] == 0 ? "" : " ", at);
}

static int put_key(struct text_buffer *buffer, const bite_input *input)
{
    char unit[64];
    int failed = put(buffer, "\n# %s\n", input->summary);
    if (input->words > 0) {
        failed |= put(buffer, "# %s = ", input->name);
        for (uint32_t i = 0; i < input->words; i++) {
            const char *word = bite_input_word(input, i);
            failed |= put(buffer, "%s%s", i == 0 ? "" : " | ", word == NULL ? "" : word);
        }
        return failed | put(buffer, "\n");
    }
    find_unit(input, unit, sizeof unit);
    return failed | put(buffer, "# %s = VALUE%s (LOW .. HIGH)\n# %s.source = GRADE: WHERE\n",
                        input->name, unit, input->name);
}

static const char head[] =
    "# TO BE FILLED IN: the table of %s.\n"
    "#\n"
    "# Remove the # of the lines that you know, and put figures in place of the capitals. The "
    "band\n"
    "# in parentheses holds nine of ten pieces; leave it out only if the figure is exact. A "
    "source\n"
    "# begins with its grade: standard, handbook, paper, datasheet, common-practice, memory or\n"
    "# estimate. Say memory or estimate where that is what it is: nobody checks a cut more\n"
    "# carefully than its weakest figure. Below are the figures of the physics, which\n"
    "# coolbite explain NAME explains; coolbite-tables(5) has the others: usual speeds, "
    "strengths,\n"
    "# service temperature.\n"
    "#\n"
    "# Then: coolbite audit %s, and put the file into\n"
    "# ~/.config/coolbite/tables/materials.\n"
    "\n"
    "[format]\n"
    "kind = material\n"
    "version = 1\n"
    "\n"
    "[family]\n"
    "name = %s\n"
    "title = %s (to be filled in)\n"
    "summary = to be filled in: what it is, in one line\n"
    "default = %s\n"
    "# other names, separated by commas\n"
    "# also = NAME, NAME\n"
    "\n"
    "[grade.%s]\n"
    "title = %s (to be filled in)\n"
    "summary = to be filled in: how this grade is made or sold\n";

static const char unlike[] =
    "# What is not stated is taken from this grade. Without it, all figures that a cut needs must\n"
    "# stand below.\n"
    "# like = FAMILY/GRADE\n";

static const char tail[] =
    "\n"
    "# Shown with every answer until you remove it.\n"
    "[caution.to_be_filled_in]\n"
    "severity = care\n"
    "text = The table of %s is not filled in yet: %s. Try it on scrap first.\n"
    "source = common-practice\n"
    "\n"
    "# Dust, fumes and fire of this material: a danger is shown first. Take it from the safety "
    "data\n"
    "# sheet.\n"
    "# [caution.dust]\n"
    "# severity = danger\n"
    "# text = TEXT\n"
    "# source = GRADE: WHERE\n"
    "\n"
    "# A cut that you have made, and how it went: coolbite audit compares.\n"
    "# [case.first]\n"
    "# tool = 3mm\n"
    "# spindle_speed = 12000rpm\n"
    "# feed_rate = 600 mm/min\n"
    "# depth = 1mm\n"
    "# expect.verdict = clear\n"
    "# source = GRADE: WHERE\n";

static int write_table(struct text_buffer *buffer, const struct new_material *made)
{
    char told[200] = "figures are missing";
    int failed = put(buffer, head, made->family, made->file, made->family, made->family,
                     made->grade, made->grade, made->grade);
    if (made->like != NULL) {
        failed |=
            put(buffer, "# What is not stated here is taken from there.\nlike = %s\n", made->like);
        (void)snprintf(told, sizeof told, "its figures are those of %.120s", made->like);
    } else {
        failed |= put(buffer, "%s", unlike);
    }
    for (size_t i = 0; i < bite_input_count(); i++) {
        const bite_input *input = bite_input_at(i);
        if (input->group == BITE_GROUP_MATERIAL) {
            failed |= put_key(buffer, input);
        }
    }
    return failed | put(buffer, tail, made->family, told);
}

/* ---- the file ---- */

/* Writes a file that is not there yet: even an empty one, or a link, is kept. */
static int create(const char *path, const struct text_buffer *buffer)
{
    int file = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) {
        return errno == EEXIST
                   ? report_failure(EXIT_CANNOT_WRITE,
                                    "%s: the file exists; it was not changed (name another "
                                    "folder by --output, or remove it)",
                                    path)
                   : report_failure(EXIT_CANNOT_WRITE, "%s: %s", path, strerror(errno));
    }
    size_t done = 0;
    int number = 0;
    while (done < buffer->size && number == 0) {
        ssize_t size = write(file, buffer->text + done, buffer->size - done);
        number = size < 0 && errno != EINTR ? errno : 0;
        done += size > 0 ? (size_t)size : 0;
    }
    number = close(file) != 0 && number == 0 ? errno : number;
    if (number != 0) {
        (void)unlink(path);
        return report_failure(EXIT_CANNOT_WRITE, "%s: %s", path, strerror(number));
    }
    return 0;
}

/* A family that the tables have would get its title from this one, and its figures half from each.
 */
static int check_family(const bite_library *library, const struct new_material *made)
{
    bite_error error = BITE_ERROR_INIT;
    bite_item item;
    size_t count = bite_library_count(library, BITE_FAMILIES);
    for (size_t i = 0; i < count; i++) {
        if (bite_library_item(library, BITE_FAMILIES, i, &item, &error) != BITE_OK) {
            return report_error(&error);
        }
        if (strcmp(item.name, made->family) == 0) {
            return report_usage_error("the tables have a family %s already, in %s: choose another "
                                      "name, and --like %s/GRADE for its figures",
                                      made->family, item.file, made->family);
        }
    }
    return 0;
}

/* The grade that it is like must be there. */
static int check_like(const bite_library *library, const struct new_material *made)
{
    bite_request *request = NULL;
    bite_error error = BITE_ERROR_INIT;
    bite_status status = bite_request_new(library, &request, &error);
    status =
        status == BITE_OK ? bite_request_use(request, BITE_GRADES, made->like, &error) : status;
    bite_request_free(request);
    return status == BITE_OK ? 0 : report_error(&error);
}

static int check_names(const struct command_line *line, const struct new_material *made)
{
    bite_library *library = NULL;
    int status = library_from_options(line, &library);
    if (status == 0) {
        status = check_family(library, made);
    }
    if (status == 0 && made->like != NULL) {
        status = check_like(library, made);
    }
    bite_library_close(library);
    return status;
}

int cmd_new_material(const struct command_line *line)
{
    struct new_material made = {"", "", "", NULL};
    struct text_buffer buffer = {NULL, 0, 0};
    int status = read_names(line, &made);
    const char *path = line->output == NULL ? made.file : line->output;
    const char *slash = strrchr(path, '/');
    const char *base = slash == NULL ? path : slash + 1;
    int streams = strcmp(path, "-") == 0;
    if (status == 0 && !streams && strcmp(base, made.file) != 0) {
        status = report_usage_error("--output %s: the table of %s must have the name %s, or no "
                                    "library finds it",
                                    path, made.family, made.file);
    }
    status = status == 0 ? check_names(line, &made) : status;
    if (status != 0) {
        return status;
    }
    if (write_table(&buffer, &made) != 0) {
        free(buffer.text);
        return report_out_of_memory();
    }
    if (streams) {
        return output_write(NULL, &buffer);
    }
    status = create(path, &buffer);
    free(buffer.text);
    if (status == 0) {
        printf("%s was written: fill it in, then coolbite audit %s\n", path, path);
    }
    return status;
}
