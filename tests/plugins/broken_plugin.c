/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Broken plugins, one for each way in which a plugin can be broken: this file is built once for
 * each, with a FAULT_... macro. */
#include <coolbite/family.h>
#include <fcntl.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <unistd.h>

#if defined(FAULT_NONE)

int nothing_here(void);
__attribute__((visibility("default"))) int nothing_here(void)
{
    return 0;
}

#else

#if defined(FAULT_UNRESOLVED)
int a_function_that_nobody_has(void);
#endif

#if defined(FAULT_MARKED)
/* Leaves a mark as soon as it is opened: a byte appended to the file named by BITE_TEST_MARK. */
__attribute__((constructor)) static void leave_mark(void)
{
    const char *path = getenv("BITE_TEST_MARK");
    int file = path == NULL ? -1 : open(path, O_WRONLY | O_APPEND | O_CLOEXEC);
    if (file < 0 || write(file, "x", 1) != 1 || close(file) != 0) {
        abort(); /* without a mark the test would pass */
    }
}
#endif

/* Plugins that end the process with success, or crash it, at each point at which a plugin runs. */
#if defined(FAULT_LEAVES)
__attribute__((constructor)) static void leave(void)
{
    _exit(0);
}
#elif defined(FAULT_LEAVES_POLITELY)
__attribute__((constructor)) static void leave(void)
{
    exit(0);
}
#elif defined(FAULT_LEAVES_LAST)
__attribute__((destructor)) static void leave(void)
{
    _exit(0);
}
#elif defined(FAULT_CRASHES)
__attribute__((constructor)) static void crash(void)
{
    (void)signal(SIGSEGV, SIG_DFL); /* sanitizers have a handler */
    (void)raise(SIGSEGV);
}
#endif

/* Texts that must not reach the screen. */
#if defined(FAULT_SOURCE_BYTES)
#define SOURCE "memory: \xff\xfe"
#elif defined(FAULT_SOURCE_ESCAPE)
#define SOURCE "memory: \033[31mred"
#elif defined(FAULT_SOURCE_TURNED)
#define SOURCE "memory: \xe2\x80\xaeturned"
#else
#define SOURCE "memory"
#endif
#if defined(FAULT_CAUTION_BYTES)
#define CAUTION "Cut \xc3 here."
#elif defined(FAULT_CAUTION_ESCAPE) || defined(FAULT_CAUTION_IGNORED)
#define CAUTION "Cut \033]0;here\007."
#elif defined(FAULT_CAUTION_LINES)
#define CAUTION "Cut here.\nCLEAR"
#else
#define CAUTION "Cut here."
#endif
#if defined(FAULT_CAUTION_SOURCE)
#define CAUTION_SOURCE "memory: \xe2\x81\xa6turned"
#else
#define CAUTION_SOURCE "memory"
#endif

static enum bite_family_status fill(const struct bite_host *host, struct bite_grade *grade)
{
    struct bite_figure figure = {1000.0, 1000.0, 1000.0};
#if defined(FAULT_LEAVES_FILLING)
    (void)figure;
    (void)host;
    (void)grade;
    _exit(0);
#elif defined(FAULT_UNFILLED)
    (void)figure;
    (void)grade;
    host->reason(host, "this toy never fills");
    return BITE_FAMILY_FAULT;
#elif defined(FAULT_SOURCELESS)
    return host->set(grade, "density", &figure, "because") == 0 ? BITE_FAMILY_OK
                                                                : BITE_FAMILY_FAULT;
#elif defined(FAULT_ABSURD)
    figure.high = 1e9;
    return host->set(grade, "density", &figure, "memory") == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
#elif defined(FAULT_UNRESOLVED)
    (void)figure;
    (void)host;
    (void)grade;
    return a_function_that_nobody_has() == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
#else
    return host->set(grade, "density", &figure, SOURCE) == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
#endif
}

static enum bite_family_status caution(const struct bite_host *host, struct bite_case *judged)
{
#if defined(FAULT_LEAVES_CAUTIONING)
    _exit(0);
#endif
    int refused = host->caution(judged, "toy", BITE_NOTE, CAUTION, CAUTION_SOURCE);
#if defined(FAULT_CAUTION_IGNORED)
    refused = 0; /* like a plugin that ignores the result */
#endif
    return refused == 0 ? BITE_FAMILY_OK : BITE_FAMILY_FAULT;
}

static enum bite_family_status check(const struct bite_host *host)
{
#if defined(FAULT_UNCHECKED)
    host->reason(host, "two and two are five");
    return BITE_FAMILY_FAULT;
#elif defined(FAULT_REASON_ESCAPE)
    host->reason(host, "two and two are \033[31mfive\xff");
    return BITE_FAMILY_FAULT;
#else
    (void)host;
    return BITE_FAMILY_OK;
#endif
}

#if defined(FAULT_NEWER)
#define ABI 99u
#else
#define ABI BITE_FAMILY_ABI
#endif
#if defined(FAULT_SHORT)
#define SIZE 12u
#else
#define SIZE (uint32_t)sizeof(struct bite_family)
#endif
#if defined(FAULT_NAMED)
#define NAME "another"
#else
#define NAME "acrylic"
#endif
#if defined(FAULT_FOLDER)
#define TABLE "../acrylic.ini"
#elif defined(FAULT_TABLE_ESCAPE)
#define TABLE "\033[31macrylic.ini"
#else
#define TABLE "acrylic.ini"
#endif

const struct bite_family *bite_family_entry(void)
{
    static const struct bite_family family = {.struct_size = SIZE,
                                              .abi = ABI,
                                              .name = NAME,
                                              .table = TABLE,
                                              .fill = fill,
                                              .caution = caution,
                                              .check = check};
#if defined(FAULT_NULL)
    (void)family;
    return NULL;
#else
    return &family;
#endif
}

#endif
