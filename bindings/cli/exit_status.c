/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The exit statuses of the program. */
#include "bindings/cli/exit_status.h"

int exit_status_of(bite_status status)
{
    switch (status) {
    case BITE_OK:
        return EXIT_CLEAR;
    case BITE_BAD_QUANTITY:
    case BITE_OUT_OF_RANGE:
    case BITE_MISSING:
    case BITE_NO_ANSWER:
        return EXIT_USAGE;
    case BITE_UNKNOWN_NAME:
    case BITE_NOT_FOUND:
        return EXIT_NO_INPUT;
    case BITE_BAD_FILE:
        return EXIT_CONTENTS;
    case BITE_UNSAFE:
    case BITE_BAD_PLUGIN:
        return EXIT_REFUSED;
    case BITE_CANNOT_WRITE:
        return EXIT_CANNOT_WRITE;
    case BITE_IO:
    case BITE_BUSY:
        return EXIT_IO;
    default:
        return EXIT_FAULT;
    }
}

int exit_status_of_verdict(uint32_t verdict, bool exit_zero)
{
    static const int by_verdict[] = {EXIT_CLEAR, EXIT_CLEAR, EXIT_TIGHT, EXIT_OVER, EXIT_UNKNOWN};
    return exit_zero ? EXIT_CLEAR : by_verdict[verdict];
}
