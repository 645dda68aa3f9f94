/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program that does nothing, linked to the same libraries: the cost of starting any such
 * program. */
#include <coolbite/coolbite.h>

int main(void)
{
    return bite_version() == NULL;
}
