/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plugin that does to its process what no plugin may. BITE_TEST_HOSTILE names what it does, and
 * BITE_TEST_HOSTILE_AT when: open, check, fill (the default), caution or end. */
#include <coolbite/family.h>
#include <fcntl.h>
#include <fenv.h>
#include <locale.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

static volatile int endless = 1;

static int loop(void)
{
    while (endless) {
    }
    return 0;
}

static int crash(void)
{
    (void)signal(SIGSEGV, SIG_DFL); /* sanitizers have a handler */
    return raise(SIGSEGV);
}

static int die(void)
{
    (void)signal(SIGABRT, SIG_DFL);
    abort();
}

static int leave(void)
{
    _exit(0);
}

static int leave_politely(void)
{
    exit(0);
}

/* Address space alone: the pages are not touched. */
static int eat(void)
{
    for (size_t i = 0; i < 4096; i++) {
        char *more = malloc((size_t)16 << 20);
        if (more == NULL) {
            abort(); /* as programs do that do not expect it */
        }
        *(volatile char *)more = 1;
    }
    return 0;
}

static int print(void)
{
    return printf("hello\n") < 0;
}

static int complain(void)
{
    return fprintf(stderr, "ugly \033[31mred\n") < 0;
}

static int change_locale(void)
{
    return setlocale(LC_ALL, "C.UTF-8") == NULL;
}

static int change_rounding(void)
{
    return fesetround(FE_UPWARD);
}

static int change_signal(void)
{
    return signal(SIGTERM, SIG_IGN) == SIG_ERR;
}

static int block_signals(void)
{
    sigset_t set;
    (void)sigemptyset(&set);
    (void)sigaddset(&set, SIGTERM);
    return sigprocmask(SIG_BLOCK, &set, NULL);
}

static int change_environment(void)
{
    return setenv("BITE_TEST_LEFT", "x", 1);
}

static int change_folder(void)
{
    return chdir("/");
}

static int change_mask(void)
{
    (void)umask(0);
    return 0;
}

static int leak(void)
{
    return open("/dev/null", O_RDONLY) < 0;
}

static int close_output(void)
{
    return close(STDOUT_FILENO);
}

static int start(void)
{
    pid_t child = fork();
    if (child == 0) {
        (void)sleep(30);
        _exit(0);
    }
    return child < 0;
}

static const struct {
    const char *name;
    int (*act)(void);
} acts[] = {{"loops", loop},
            {"crashes", crash},
            {"aborts", die},
            {"leaves", leave},
            {"leaves-politely", leave_politely},
            {"eats", eat},
            {"prints", print},
            {"complains", complain},
            {"locale", change_locale},
            {"rounding", change_rounding},
            {"signal", change_signal},
            {"blocks", block_signals},
            {"environment", change_environment},
            {"folder", change_folder},
            {"mask", change_mask},
            {"leaks", leak},
            {"closes", close_output},
            {"starts", start}};

static int is_asked(const char *name)
{
    const char *asked = getenv("BITE_TEST_HOSTILE");
    return asked != NULL && strcmp(asked, name) == 0;
}

static void act(const char *when)
{
    const char *at = getenv("BITE_TEST_HOSTILE_AT");
    if (strcmp(at == NULL || *at == 0 ? "fill" : at, when) != 0) {
        return;
    }
    for (size_t i = 0; i < sizeof acts / sizeof *acts; i++) {
        if (is_asked(acts[i].name) && acts[i].act() != 0) {
            abort();
        }
    }
}

__attribute__((constructor)) static void on_open(void)
{
    act("open");
}

__attribute__((destructor)) static void on_end(void)
{
    act("end");
}

/* A text that has no end within its page. */
static const char *unterminated(void)
{
    size_t size = (size_t)sysconf(_SC_PAGESIZE);
    char *pages = mmap(NULL, 2 * size, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
    if (pages == MAP_FAILED || mprotect(pages + size, size, PROT_NONE) != 0) {
        abort();
    }
    (void)signal(SIGSEGV, SIG_DFL);
    memset(pages, 'x', size);
    memcpy(pages, "memory: ", strlen("memory: "));
    return pages;
}

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    double value = is_asked("nan") ? (double)NAN : is_asked("negative") ? -1000.0 : 1200.0;
    struct bite_figure figure = {value, value, value};
    const char *source = is_asked("unterminated") ? unterminated() : "memory";
    act("fill");
    return host->set(grade, "density", &figure, source) == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
    static int calls;
    act("caution");
    if (is_asked("moody") && calls++ % 2 == 0) {
        return host->caution(judged, "mood", BITE_NOTE, "Not today.", "memory") == 0
                   ? BITE_FAMILY_OK
                   : BITE_FAMILY_FAULT;
    }
    return BITE_FAMILY_OK;
}

static enum bite_family_status check(const struct bite_host *host)
{
    (void)host;
    act("check");
    return BITE_FAMILY_OK;
}

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {
        .struct_size = (uint32_t)sizeof(struct bite_family),
        .abi = BITE_FAMILY_ABI,
        .name = "acrylic",
        .table = "acrylic.ini",
        .fill = fill,
        .caution = caution,
        .check = check,
    };
    return &family;
}
