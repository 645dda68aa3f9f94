/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * What the formulas need to run in lanes: a loop over the lanes of a block becomes vector code only
 * if its body has no branch and calls no function that has no vector form.
 *
 * The formulas of core/physics are functions of doubles that are always inlined. They choose with
 * ?: and with the functions of this file, whose treatment of NaN, which stands for "not given", is
 * stated: fmin and fmax are slow in lanes, since they must ignore NaN.
 */
#ifndef BITE_BASE_LANE_MATH_H
#define BITE_BASE_LANE_MATH_H

#include <math.h>

/** A formula that lanes call. A test that reads in the objects which formulas it calls has them out
 * of line. */
#if defined(BITE_FORMULAS_OUT_OF_LINE) && defined(__clang__)
#define BITE_FORMULA static __attribute__((noinline, unused))
#elif defined(BITE_FORMULAS_OUT_OF_LINE)
#define BITE_FORMULA static __attribute__((noipa, unused))
#else
#define BITE_FORMULA static inline __attribute__((always_inline))
#endif

/* Before a loop of a formula: in lanes its count is a constant, and no loop may be left of it. */
#if defined(__GNUC__) && !defined(__clang__)
#define BITE_UNROLLED _Pragma("GCC unroll 16")
#else
#define BITE_UNROLLED
#endif

/** A function that is compiled for several instruction sets; the loader takes the best one. Not by
 * clang, which knows no vector forms of the functions of <math.h> here, and whose choosers of
 * static functions of the same name collide. */
#if defined(BITE_TARGET_CLONES) && !defined(__clang__)
#define BITE_IN_LANES __attribute__((target_clones("default", "arch=x86-64-v3", "arch=x86-64-v4")))
#else
#define BITE_IN_LANES
#endif

/* glibc has vector forms of these, but declares them with -ffast-math alone. The compiler takes
 * them for a loop over lanes; anywhere else the plain function is called. */
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__GLIBC__)
#if __GLIBC_PREREQ(2, 35) && defined(__OPTIMIZE__)
#define BITE_VECTOR_FORM __attribute__((__simd__("notinbranch")))
extern BITE_VECTOR_FORM double acos(double);
extern BITE_VECTOR_FORM double asin(double);
extern BITE_VECTOR_FORM double asinh(double);
extern BITE_VECTOR_FORM double atan(double);
extern BITE_VECTOR_FORM double atan2(double, double);
extern BITE_VECTOR_FORM double cbrt(double);
extern BITE_VECTOR_FORM double cos(double);
extern BITE_VECTOR_FORM double erf(double);
extern BITE_VECTOR_FORM double erfc(double);
extern BITE_VECTOR_FORM double exp(double);
extern BITE_VECTOR_FORM double exp2(double);
extern BITE_VECTOR_FORM double expm1(double);
extern BITE_VECTOR_FORM double log(double);
extern BITE_VECTOR_FORM double log10(double);
extern BITE_VECTOR_FORM double pow(double, double);
extern BITE_VECTOR_FORM double sin(double);
extern BITE_VECTOR_FORM double tan(double);
#undef BITE_VECTOR_FORM
#endif
#endif

/** The smaller one; b if one of them is NaN. */
BITE_FORMULA double bite_smaller(double a, double b)
{
    return a < b ? a : b;
}

/** The larger one; b if one of them is NaN. */
BITE_FORMULA double bite_larger(double a, double b)
{
    return a > b ? a : b;
}

/** The number if it is one, else the other. */
BITE_FORMULA double bite_or(double number, double other)
{
    return number == number ? number : other;
}

/** The larger of the numbers that are not NaN; NaN if both are. */
BITE_FORMULA double bite_larger_known(double a, double b)
{
    return a >= b ? a : bite_or(b, a);
}

/** The number, within low and high; low if it is NaN. */
BITE_FORMULA double bite_within(double number, double low, double high)
{
    return bite_smaller(bite_larger(number, low), high);
}

/** sqrt(a2 + b2), of numbers whose squares neither overflow nor vanish. */
BITE_FORMULA double bite_length_of(double a, double b)
{
    return sqrt(a * a + b * b);
}

/** base^exponent of a base above 0, to some 1e-15 x |exponent x ln(base)|: two thirds of the time
 * of pow in lanes, which has more digits in between. */
BITE_FORMULA double bite_power_of(double base, double exponent)
{
    return exp(exponent * log(base));
}

#endif
