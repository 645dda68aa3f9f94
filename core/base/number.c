/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers as text, the same in every locale. */
#include "core/base/number.h"
#include "core/base/text.h"
#include <locale.h>
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define NUMBER_SIZE 64 /* characters of one number and its 0 */

/* The C locale, as an object of the library's own: made once, never changed or freed, and without
 * effect on the locale of the process. */
static locale_t c_locale;
static pthread_once_t c_locale_once = PTHREAD_ONCE_INIT;

static void make_c_locale(void)
{
    c_locale = newlocale(LC_ALL_MASK, "C", (locale_t)0);
}

static size_t span_digits(const char *text, size_t length)
{
    size_t used = 0;
    while (used < length && bite_text_is_digit(text[used])) {
        used++;
    }
    return used;
}

/* Bytes of the number at the start: sign, digits, one point, exponent; at least one digit. 0: none.
 */
static size_t span_number(const char *text, size_t length)
{
    size_t at = length > 0 && (text[0] == '-' || text[0] == '+') ? 1 : 0;
    size_t whole = span_digits(text + at, length - at);
    at += whole;
    size_t fraction = 0;
    if (at < length && text[at] == '.') {
        fraction = span_digits(text + at + 1, length - at - 1);
        if (whole + fraction > 0) {
            at += 1 + fraction;
        }
    }
    if (whole + fraction == 0) {
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
    char copy[NUMBER_SIZE];
    if (size == 0 || size >= sizeof copy || pthread_once(&c_locale_once, make_c_locale) != 0 ||
        c_locale == (locale_t)0) {
        return false;
    }
    memcpy(copy, text, size);
    copy[size] = 0;
    double number = strtod_l(copy, NULL, c_locale);
    if (!isfinite(number)) {
        return false;
    }
    *value = number;
    *used = size;
    return true;
}

/* snprintf follows the locale of the process, whose decimal mark may be a comma or several bytes:
 * whatever is between the digits becomes a point. */
static void restore_point(char *text)
{
    char *from = text + (*text == '-');
    from += span_digits(from, strlen(from));
    if (*from == 0 || *from == 'e' || *from == '.') {
        return;
    }
    char *to = from;
    *to++ = '.';
    while (*from != 0 && !bite_text_is_digit(*from)) {
        from++;
    }
    memmove(to, from, strlen(from) + 1);
}

static void drop_trailing_zeros(char *text)
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
        /* the rounded value decides between the two forms, as in %g: exponent form below 1e-4 and
         * from 10^digits on */
        (void)snprintf(text, sizeof text, "%.*e", digits - 1, value);
        int power = atoi(strchr(text, 'e') + 1);
        if (value == 0.0) {
            (void)snprintf(text, sizeof text, "0");
        } else if (power >= -4 && power < digits) {
            (void)snprintf(text, sizeof text, "%.*f", digits - 1 - power, value);
            restore_point(text);
            drop_trailing_zeros(text);
        } else {
            char mantissa[40];
            (void)snprintf(mantissa, sizeof mantissa, "%.*s", (int)(strchr(text, 'e') - text),
                           text);
            restore_point(mantissa);
            drop_trailing_zeros(mantissa);
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
