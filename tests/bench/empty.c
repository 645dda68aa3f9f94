/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A program that does nothing, linked to the same libraries: what the start of any such program
 * costs. */
#include <coolbite/coolbite.h>

int main(void)
{
    return bite_version() == NULL;
}
