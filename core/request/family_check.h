/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Self-tests of a family: bite_library_check_family is in coolbite/coolbite.h. */
#ifndef BITE_REQUEST_FAMILY_CHECK_H
#define BITE_REQUEST_FAMILY_CHECK_H

#include <coolbite/coolbite.h>

#endif
