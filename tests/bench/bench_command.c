/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whole commands, beside an empty program with the same libraries. */
#include "tests/bench/bench.h"
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#define WORDS_MAX 24
#define PATH_LENGTH 1024
#define ROUNDS_MOST 15
#define JOB_PASSES 200
#define SHOP_TOOLS 200
#define JOB_TOOLS 40

/* Words of a command line. "@" stands for the folder of the sources, "%" for a temporary folder. */
typedef struct command {
    const char *name;
    int rounds;
    int exits; /* highest exit status that is an answer */
    const char *words[WORDS_MAX];
} command;

#define LENS                                                                                       \
    "--material", "acrylic/cast", "--tool", "0.8mm", "--flutes", "2", "--machine", "bench-24k",    \
        "--stickout", "6mm", "--floor", "0.6mm", "--tolerance", "0.05mm"
#define SLOT                                                                                       \
    "--material", "acrylic/cast", "--tool", "0.8mm", "--spindle", "12000rpm", "--feed",            \
        "200mm/min", "--depth", "0.4mm"

/* Those that search come last: another search changes them. */
static const command commands[] = {
    {"--version", ROUNDS_MOST, 0, {"--version"}},
    {"list tools", ROUNDS_MOST, 0, {"list", "tools"}},
    {"list materials", ROUNDS_MOST, 0, {"list", "materials"}},
    {"cut", ROUNDS_MOST, 3, {"cut", SLOT, "--format", "json"}},
    {"cut, one draw", ROUNDS_MOST, 3, {"cut", SLOT, "--format", "json", "--draws", "1"}},
    {"cut in 6061",
     ROUNDS_MOST,
     3,
     {"cut", "--material", "6061", "--tool", "3mm", "--machine", "bench-24k", "--spindle",
      "18000rpm", "--feed", "900mm/min", "--depth", "0.5mm"}},
    {"choose, one tool in plastic",
     7,
     3,
     {"choose", "--material", "acrylic/cast", "--tool", "1/32in", "--flutes", "2", "--machine",
      "bench-24k", "--feature-depth", "0.6mm", "--tolerance", "0.05mm", "--goal", "cool"}},
    {"choose, one tool, a wide feature in 6061",
     7,
     3,
     {"choose", "--material", "6061", "--tool", "3mm", "--machine", "bench-24k", "--feature-depth",
      "9mm", "--feature-width", "5mm", "--coolant", "air"}},
    {"choose, any tool in 6061",
     5,
     3,
     {"choose", "--material", "6061", "--tool", "any", "--machine", "bench-24k", "--feature-depth",
      "3mm", "--coolant", "air"}},
    {"window", 5, 3, {"window", LENS, "--depth", "0.2mm", "--output", "%/window.svg"}},
    {"job cover-lens", 3, 3, {"job", "@/tables/jobs/cover-lens.ini"}},
    {"job sensor-window", 3, 3, {"job", "@/tables/jobs/sensor-window.ini"}},
    {"job bracket", 3, 3, {"job", "@/tables/jobs/bracket.ini"}},
    {"job of 200 passes and 40 tools", 3, 3, {"job", "%/long.ini"}},
    {"choose, any of 200 tools more",
     3,
     3,
     {"choose", "--material", "6061", "--tool", "any", "--machine", "bench-24k", "--feature-depth",
      "3mm", "--coolant", "air"}},
};
#define COMMANDS (sizeof commands / sizeof *commands)
#define WITH_SHOP (COMMANDS - 2) /* from here on they see the table of many tools */

/* ---- what they read ---- */

static FILE *create(const char *folder, const char *name)
{
    char path[PATH_LENGTH];
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "w");
    if (file == NULL) {
        bench_fail(path, "it cannot be written");
    }
    return file;
}

/* Tools of 0.4 to 8.36 mm, of one to four flutes. */
static void write_tools(const char *folder)
{
    FILE *file = create(folder, "shop/tools.ini");
    fprintf(file, "[format]\nkind = tools\nversion = 1\n");
    for (int i = 0; i < SHOP_TOOLS; i++) {
        double diameter = 0.4 + 0.04 * i;
        fprintf(file,
                "\n[tool.many-%d]\ntitle = tool %d\nsummary = square end mill\nsource = estimate: "
                "made up for a benchmark\n"
                "tool_material = carbide\ndiameter = %.2f mm\nflutes = %d\nflute_length = %.2f mm\n"
                "shank_diameter = %.2f mm\n",
                i, i, diameter, 1 + i % 4, 3.0 * diameter, fmax(3.0, diameter));
    }
    (void)fclose(file);
}

static void write_job(const char *folder)
{
    FILE *file = create(folder, "long.ini");
    fprintf(file, "[format]\nkind = job\nversion = 1\n\n[job]\ntitle = Long job\nmade_up = yes\n"
                  "goal = cool\n\n[part]\nname = plate\nmaterial = acrylic/cast\nlength = 120 mm\n"
                  "width = 80 mm\nthickness = 6 mm\nthinnest = 2 mm\ncount = 1\n"
                  "inside_radius = 0.8 mm\ntolerance = 0.05 mm\n\n[machine]\nname = bench-24k\n"
                  "runout = 6 um\n\n[hold]\nmethod = tape-glue\n\n[fluids]\ncoolant = air\n\n"
                  "[tools]\nat_hand =");
    for (int i = 0; i < JOB_TOOLS; i++) {
        fprintf(file, " many-%d", i * SHOP_TOOLS / JOB_TOOLS);
    }
    fprintf(file, "\n");
    for (int i = 0; i < JOB_PASSES; i++) {
        fprintf(file,
                "\n[pass.n%d]\ntitle = pocket %d\nwork = pocket\nsetup = 1\nlength = %d mm\n"
                "across = %d mm\ndepth = %.1f mm\n",
                i, i, 8 + i % 7, 4 + i % 5, 0.5 + 0.1 * (i % 20));
    }
    (void)fclose(file);
}

static void set_paths(const char *folder, const char *root)
{
    char shop[PATH_LENGTH];
    (void)snprintf(shop, sizeof shop, "%s/shop", folder);
    if (mkdir(shop, 0755) != 0) {
        bench_fail(shop, "it cannot be made");
    }
    write_tools(folder);
    write_job(folder);
    (void)snprintf(shop, sizeof shop, "%s/shop:%s/tables", folder, root);
    if (setenv("COOLBITE_BENCH_SHOP", shop, 1) != 0) {
        bench_fail(shop, "no memory");
    }
}

static void remove_all(const char *folder)
{
    static const char *const names[] = {"/shop/tools.ini", "/shop", "/long.ini", "/window.svg", ""};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char path[PATH_LENGTH];
        (void)snprintf(path, sizeof path, "%s%s", folder, names[i]);
        (void)remove(path);
    }
}

/* ---- runs ---- */

/* The command line of a command. */
typedef struct command_line {
    char text[WORDS_MAX][PATH_LENGTH];
    char *words[WORDS_MAX + 2];
    int shop;
} command_line;

static void fill_line(size_t index, char *program, const char *root, const char *folder,
                      command_line *line)
{
    size_t count = 0;
    line->words[count++] = program;
    for (; count <= WORDS_MAX && commands[index].words[count - 1] != NULL; count++) {
        const char *word = commands[index].words[count - 1];
        const char *front = *word == '@' ? root : *word == '%' ? folder : "";
        (void)snprintf(line->text[count - 1], PATH_LENGTH, "%s%s", front, word + (*front != '\0'));
        line->words[count] = line->text[count - 1];
    }
    line->words[count] = NULL;
    line->shop = index >= WITH_SHOP;
}

/* Wall time and processor time, s. */
typedef struct run_time {
    double wall;
    double cpu;
    int exits;
} run_time;

static run_time run(char *const *words, int shop)
{
    double cpu = bench_children_cpu();
    double start = bench_now();
    pid_t child = fork();
    if (child == 0) {
        int null = open("/dev/null", O_RDWR);
        (void)dup2(null, 0);
        (void)dup2(null, 1);
        (void)dup2(null, 2);
        if (shop) {
            (void)setenv("COOLBITE_TABLE_PATH", getenv("COOLBITE_BENCH_SHOP"), 1);
        }
        execv(words[0], words);
        _exit(127);
    }
    int status = 0;
    (void)waitpid(child, &status, 0);
    run_time time = {bench_now() - start, bench_children_cpu() - cpu,
                     WIFEXITED(status) ? WEXITSTATUS(status) : 127};
    return time;
}

static void say(const char *name, double *walls, double *cpus, const double *empties, int rounds)
{
    double ratio = bench_ratio_of(walls, empties, rounds);
    bench_timing wall = bench_timing_of(walls, rounds);
    bench_timing cpu = bench_timing_of(cpus, rounds);
    printf("%-42s %9.2f %9.2f ms   %9.2f %9.2f ms   %8.1f x\n", name, 1e3 * wall.least,
           1e3 * wall.median, 1e3 * cpu.least, 1e3 * cpu.median, ratio);
    (void)fflush(stdout);
}

/* In turns with the empty program, so that the load of the machine affects both alike. */
static void time_command(const char *name, const command_line *line, int rounds, int exits,
                         char *empty)
{
    char *nothing[] = {empty, NULL};
    double walls[ROUNDS_MOST];
    double cpus[ROUNDS_MOST];
    double empties[ROUNDS_MOST];
    for (int i = 0; i < rounds; i++) {
        run_time time = run(line->words, line->shop);
        walls[i] = time.wall;
        cpus[i] = time.cpu;
        empties[i] = run(nothing, 0).wall;
        if (time.exits > exits) {
            printf("%-42s left out: exit status %d\n", name, time.exits);
            return;
        }
    }
    say(name, walls, cpus, empties, rounds);
}

void bench_commands(char *program, char *empty, const char *root)
{
    char folder[] = "/tmp/bite-bench-XXXXXX";
    static command_line line;
    command_line nothing = {.words = {empty, NULL}};
    if (mkdtemp(folder) == NULL) {
        bench_fail(folder, "it cannot be made");
    }
    set_paths(folder, root);
    printf("\nWhole commands: wall time, processor time (least, median), wall time / that of the "
           "empty program\n");
    time_command("empty program, same libraries", &nothing, ROUNDS_MOST, 0, empty);
    for (size_t i = 0; i < COMMANDS; i++) {
        fill_line(i, program, root, folder, &line);
        time_command(commands[i].name, &line, commands[i].rounds, commands[i].exits, empty);
    }
    remove_all(folder);
}
