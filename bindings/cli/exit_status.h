/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The exit statuses of the program. */
#ifndef BITE_CLI_EXIT_STATUS_H
#define BITE_CLI_EXIT_STATUS_H

#include <coolbite/coolbite.h>
#include <stdbool.h>

/** 64 and above are the values of sysexits.h. */
enum exit_status {
    EXIT_CLEAR = 0,
    EXIT_TIGHT = 1,
    EXIT_FINDINGS = 1, /* of audit */
    EXIT_OVER = 2,
    EXIT_UNKNOWN = 3,
    EXIT_USAGE = 64,
    EXIT_CONTENTS = 65,
    EXIT_NO_INPUT = 66,
    EXIT_REFUSED = 69,
    EXIT_FAULT = 70,
    EXIT_SYSTEM = 71, /* the worker process cannot be started */
    EXIT_CANNOT_WRITE = 73,
    EXIT_IO = 74
};

/** The exit status of an error of the library. */
int exit_status_of(bite_status status);

/** The exit status of a bite_verdict; with --exit-zero always EXIT_CLEAR. */
int exit_status_of_verdict(uint32_t verdict, bool exit_zero);

#endif
