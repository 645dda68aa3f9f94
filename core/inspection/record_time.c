/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Dates of the Gregorian calendar and seconds since 1970, without the C library's time zone. */
#include "core/inspection/record_time.h"
#include "core/base/text.h"
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#define DAY 86400
static const double most = 253402300799.0; /* 9999-12-31T23:59:59Z */

static int is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_of_month(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && is_leap(year));
}

/* Days from 1970-01-01 to the first of January. */
static int64_t days_before(int year)
{
    int64_t y = year - 1;
    return 365 * (int64_t)(year - 1970) + (y / 4 - y / 100 + y / 400) - (1969 / 4 - 1969 / 100 + 4);
}

bool bite_record_time_read(const char *text, size_t length, double *seconds)
{
    static const char form[] = "0000-00-00T00:00:00Z";
    int part[6] = {0};
    int count = 0;
    if (length != sizeof form - 1) {
        return false;
    }
    for (size_t i = 0; i < length; i++) {
        bool digit = form[i] == '0';
        if (digit ? !bite_text_is_digit(text[i]) : text[i] != form[i]) {
            return false;
        }
        part[count] = digit ? part[count] * 10 + (text[i] - '0') : part[count];
        count += !digit && i + 1 < length;
    }
    if (part[0] < 1970 || part[1] < 1 || part[1] > 12 || part[2] < 1 ||
        part[2] > days_of_month(part[0], part[1]) || part[3] > 23 || part[4] > 59 || part[5] > 59) {
        return false;
    }
    int64_t days = days_before(part[0]) + part[2] - 1;
    for (int month = 1; month < part[1]; month++) {
        days += days_of_month(part[0], month);
    }
    *seconds = (double)(days * DAY + part[3] * 3600 + part[4] * 60 + part[5]);
    return true;
}

void bite_record_time_write(double seconds, char text[BITE_RECORD_TIME_MAX])
{
    int64_t whole = (int64_t)floor(fmin(fmax(seconds, 0.0), most));
    int64_t day = whole / DAY;
    int rest = (int)(whole % DAY);
    int year = 1970 + (int)(day / 366); /* not later than the true one */
    int month = 1;
    while (days_before(year + 1) <= day) {
        year++;
    }
    day -= days_before(year);
    while (day >= days_of_month(year, month)) {
        day -= days_of_month(year, month++);
    }
    int length = snprintf(text, BITE_RECORD_TIME_MAX, "%04d-%02d-%02dT%02d:%02d:%02dZ", year, month,
                          (int)day + 1, rest / 3600, rest / 60 % 60, rest % 60);
    if (length < 0 || length >= BITE_RECORD_TIME_MAX) {
        text[0] = 0; /* never: years up to that of `most` have four digits */
    }
}
