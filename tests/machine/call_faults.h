/* SPDX-License-Identifier: GPL-3.0-or-later */
/* System calls that fail as told: the functions of the C library that the library uses for files,
 * replaced in the program that this is linked into. */
#ifndef BITE_TESTS_MACHINE_CALL_FAULTS_H
#define BITE_TESTS_MACHINE_CALL_FAULTS_H

/** From now on calls are counted, and the one with this number (1: the next; 0: none) fails with
 * this errno; rest: nonzero: so do all after it. */
void call_faults_begin(int which, int number, int rest);
/** No call fails any more. Returns how many were made. */
int call_faults_end(void);
/** How many calls of this function failed; NULL: of any. */
int call_faults_failed(const char *name);

#endif
