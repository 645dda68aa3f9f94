/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * A plugin runs in the process of the command with all the rights of the user. The program itself
 * never starts another one and never opens a connection, so it gives up the calls for that: a
 * plugin that means harm has to do it by files. (They cannot be given up: tables are read when they
 * are asked for, and an answer is written at the end.)
 *
 * The filter lists what is refused, not what is allowed: what the C library needs differs with its
 * version, and a call that was forgotten in a list of allowed ones would break a command there.
 */
#include "bindings/cli/system_calls.h"
#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(memory_sanitizer) ||                         \
    __has_feature(thread_sanitizer) || __has_feature(leak_sanitizer)
#define SANITIZED 1
#endif
#endif

#if defined(__linux__) && (defined(__x86_64__) || defined(__aarch64__)) && !defined(SANITIZED)

#include <errno.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sched.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

#ifdef __x86_64__
#define ARCHITECTURE AUDIT_ARCH_X86_64
#define NUMBER_MOST 0x3fffffffu /* above it are the calls of the x32 interface */
#else
#define ARCHITECTURE AUDIT_ARCH_AARCH64
#define NUMBER_MOST 0xffffffffu
#endif

/* Without it, kernels before 5.16 slow all arithmetic of a filtered process down. */
#ifndef SECCOMP_FILTER_FLAG_SPEC_ALLOW
#define SECCOMP_FILTER_FLAG_SPEC_ALLOW (1UL << 2)
#endif

static const uint32_t refused[] = {
    /* other programs and processes */
    __NR_execve,
    __NR_execveat,
#ifdef __NR_fork
    __NR_fork,
    __NR_vfork,
#endif
#ifdef __GLIBC__
    __NR_tkill, /* of any thread anywhere; another C library may end itself by it */
#endif
    __NR_rt_sigqueueinfo,
    __NR_ptrace,
    __NR_process_vm_readv,
    __NR_process_vm_writev,
#ifdef __NR_pidfd_open
    __NR_pidfd_open,
#endif
#ifdef __NR_pidfd_getfd
    __NR_pidfd_getfd,
#endif
#ifdef __NR_pidfd_send_signal
    __NR_pidfd_send_signal,
#endif
    /* connections */
    __NR_socket,
    __NR_socketpair,
    __NR_connect,
    __NR_bind,
    __NR_listen,
    __NR_accept,
    __NR_accept4,
#ifdef __NR_io_uring_setup
    __NR_io_uring_setup, /* opens them without the calls above */
#endif
    /* the system */
    __NR_mount,
    __NR_umount2,
    __NR_pivot_root,
    __NR_chroot,
    __NR_unshare,
    __NR_setns,
    __NR_bpf,
    __NR_perf_event_open,
    __NR_userfaultfd,
    __NR_keyctl,
    __NR_add_key,
    __NR_request_key,
    __NR_init_module,
    __NR_finit_module,
    __NR_kexec_load,
    __NR_reboot,
};

/* Calls whose first argument is a process. */
static const uint32_t for_itself[] = {__NR_kill, __NR_tgkill, __NR_rt_tgsigqueueinfo};

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define STATEMENTS_MOST (2 * COUNT(refused) + 5 * (COUNT(for_itself) + 1) + 9)

struct filter {
    struct sock_filter statements[STATEMENTS_MOST];
    unsigned short count;
};

static void add(struct filter *filter, uint16_t code, uint32_t operand, uint8_t skip_if_true,
                uint8_t skip_if_false)
{
    filter->statements[filter->count++] =
        (struct sock_filter){code, skip_if_true, skip_if_false, operand};
}

static void add_answer(struct filter *filter, uint32_t answer)
{
    add(filter, BPF_RET | BPF_K, answer, 0, 0);
}

static void load(struct filter *filter, size_t offset)
{
    add(filter, BPF_LD | BPF_W | BPF_ABS, (uint32_t)offset, 0, 0);
}

/* A call that is allowed if this holds of the low word of its first argument: both machines are
 * little-endian. */
static void add_allowed_if(struct filter *filter, uint32_t call, uint16_t test, uint32_t operand)
{
    add(filter, BPF_JMP | BPF_JEQ | BPF_K, call, 0, 4);
    load(filter, offsetof(struct seccomp_data, args));
    add(filter, BPF_JMP | BPF_K | test, operand, 0, 1);
    add_answer(filter, SECCOMP_RET_ALLOW);
    add_answer(filter, SECCOMP_RET_ERRNO | EPERM);
}

static void fill(struct filter *filter)
{
    const uint32_t no = SECCOMP_RET_ERRNO | EPERM;
    const uint16_t equal = BPF_JMP | BPF_JEQ | BPF_K;
    load(filter, offsetof(struct seccomp_data, arch));
    add(filter, equal, ARCHITECTURE, 1, 0);
    add_answer(filter, no);
    load(filter, offsetof(struct seccomp_data, nr));
    add(filter, BPF_JMP | BPF_JGT | BPF_K, NUMBER_MOST, 0, 1);
    add_answer(filter, no);
    for (size_t i = 0; i < COUNT(refused); i++) {
        add(filter, equal, refused[i], 0, 1);
        add_answer(filter, no);
    }
#ifdef __NR_clone3
    /* its flags are in memory, where no filter can look; the C library then uses clone */
    add(filter, equal, __NR_clone3, 0, 1);
    add_answer(filter, SECCOMP_RET_ERRNO | ENOSYS);
#endif
    add_allowed_if(filter, __NR_clone, BPF_JSET, CLONE_THREAD);
    for (size_t i = 0; i < COUNT(for_itself); i++) {
        add_allowed_if(filter, for_itself[i], BPF_JEQ, (uint32_t)getpid());
    }
    add_answer(filter, SECCOMP_RET_ALLOW);
}

bool drop_system_calls(void)
{
    struct filter filter = {.count = 0};
    fill(&filter);
    struct sock_fprog program = {filter.count, filter.statements};
    if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0) {
        return false;
    }
    return syscall(__NR_seccomp, SECCOMP_SET_MODE_FILTER, SECCOMP_FILTER_FLAG_SPEC_ALLOW,
                   &program) == 0 ||
           prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program, 0, 0) == 0;
}

#else

bool drop_system_calls(void)
{
    return false;
}

#endif
