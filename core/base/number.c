/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers in text, the same in every locale. */
#include "core/base/number.h"
#include <locale.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NUMBER_MOST 64 /* characters of one number; no shop types more */

/* A locale of our own, made once and never changed or freed: a constant that the C library must
 * build at run time. It is not the process's. */
static locale_t plain_locale;
static pthread_once_t plain_once = PTHREAD_ONCE_INIT;

static void make_plain(void)
{
    plain_locale = newlocale(LC_ALL_MASK, "C", (locale_t)0);
}

static int digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t span_digits(const char *text, size_t length)
{
    size_t used = 0;
    while (used < length && digit(text[used])) {
        used++;
    }
    return used;
}

/* Sign, digits, one point, exponent; at least one digit. 0: no number. */
static size_t span_number(const char *text, size_t length)
{
    size_t at = length > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    size_t whole = span_digits(text + at, length - at);
    at += whole;
    size_t part = 0;
    if (at < length && text[at] == '.') {
        part = span_digits(text + at + 1, length - at - 1);
        if (whole + part > 0) {
            at += 1 + part;
        }
    }
    if (whole + part == 0) {
        return 0;
    }
    if (at < length && (text[at] == 'e' || text[at] == 'E')) {
        size_t sign = at + 1 < length && (text[at + 1] == '-' || text[at + 1] == '+') ? 1 : 0;
        size_t power = span_digits(text + at + 1 + sign, length - at - 1 - sign);
        at += power > 0 ? 1 + sign + power : 0;
    }
    return at;
}

bool bite_number_read(const char *text, size_t length, double *value, size_t *used)
{
    size_t size = span_number(text, length);
    char copy[NUMBER_MOST];
    if (size == 0 || size >= sizeof copy || pthread_once(&plain_once, make_plain) != 0 ||
        plain_locale == (locale_t)0) {
        return false;
    }
    memcpy(copy, text, size);
    copy[size] = 0;
    double number = strtod_l(copy, NULL, plain_locale);
    if (!isfinite(number)) {
        return false;
    }
    *value = number;
    *used = size;
    return true;
}

/* The process's locale may print a comma, or a sign of several bytes: whatever stands between the
 * digits becomes a point. */
static void mend_point(char *text)
{
    char *from = text + (*text == '-');
    from += span_digits(from, strlen(from));
    if (*from == 0 || *from == 'e' || *from == '.') {
        return;
    }
    char *to = from;
    *to++ = '.';
    while (*from != 0 && !digit(*from)) {
        from++;
    }
    memmove(to, from, strlen(from) + 1);
}

static void drop_zeros(char *text)
{
    if (strchr(text, '.') == NULL) {
        return;
    }
    size_t end = strlen(text);
    while (text[end - 1] == '0') {
        text[--end] = 0;
    }
    if (text[end - 1] == '.') {
        text[end - 1] = 0;
    }
}

/* The whole number nearest to scaled, ties to even. rest: what scaled lacks of the exact value,
 * which decides where scaled itself is a tie. */
static double nearest_whole(double scaled, double rest)
{
    double below = floor(scaled);
    double part = scaled - below;
    if (part > 0.5 || (part >= 0.5 && rest > 0.0)) {
        return below + 1.0;
    }
    if (part < 0.5 || rest < 0.0) {
        return below;
    }
    return fmod(below, 2.0) > 0.0 ? below + 1.0 : below;
}

/* The rounded digits are a whole number below 2^53 and powers of ten up to 10^22 are exact, so the
 * last multiplication or division gives the double nearest to the decimal number, as reading does.
 */
double bite_number_round(double value, int digits)
{
    double size = fabs(value);
    if (!isfinite(value) || size < 1e-290) { /* beyond, the powers of ten overflow */
        return value;
    }
    digits = digits < 1 ? 1 : digits > 15 ? 15 : digits;
    int shift = digits - 1 - (int)floor(log10(size));
    double power = pow(10.0, abs(shift));
    double scaled = shift >= 0 ? size * power : size / power;
    double rest = shift >= 0 ? fma(size, power, -scaled) : fma(-scaled, power, size);
    double whole = nearest_whole(scaled, rest);
    return copysign(shift >= 0 ? whole / power : whole * power, value);
}

size_t bite_number_write(double value, int digits, char *buffer, size_t size)
{
    char text[400];
    digits = digits < 1 ? 1 : digits > 17 ? 17 : digits;
    if (!isfinite(value)) {
        (void)snprintf(text, sizeof text, "%s", isnan(value) ? "nan" : value > 0 ? "inf" : "-inf");
    } else {
        /* as %g, whose exponent form begins below 1e-4 and at 10^digits; its rounding decides */
        (void)snprintf(text, sizeof text, "%.*e", digits - 1, value);
        int power = atoi(strchr(text, 'e') + 1);
        if (value == 0.0) {
            (void)snprintf(text, sizeof text, "0");
        } else if (power >= -4 && power < digits) {
            (void)snprintf(text, sizeof text, "%.*f", digits - 1 - power, value);
            mend_point(text);
            drop_zeros(text);
        } else {
            char mantissa[40];
            (void)snprintf(mantissa, sizeof mantissa, "%.*s", (int)(strchr(text, 'e') - text),
                           text);
            mend_point(mantissa);
            drop_zeros(mantissa);
            (void)snprintf(text, sizeof text, "%se%s%02d", mantissa, power < 0 ? "-" : "+",
                           abs(power));
        }
    }
    size_t needed = strlen(text);
    if (size > 0) {
        size_t fits = needed < size ? needed : size - 1;
        memcpy(buffer, text, fits);
        buffer[fits] = 0;
    }
    return needed;
}
