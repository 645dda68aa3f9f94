/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Sizes, times and chances of a report as text. */
#include "core/report/inspection/size_text.h"
#include "core/base/number.h"
#include "core/inspection/record_time.h"
#include <inttypes.h>
#include <math.h>
#include <stdio.h>

#define DECIMALS_MOST 6

static const struct {
    const char *unit;
    double scale;
    int decimals; /* at least: 0.01 mm and 0.0001 in */
    int endless;  /* of a size that no decimals write exactly: 0.001 mm and 0.0001 in */
} units_of_size[] = {[BITE_METRIC] = {"mm", 1e-3, 2, 3}, [BITE_INCH] = {"in", 25.4e-3, 4, 4}};

/* The decimals that write a number exactly, to a tenth of the finest one. */
static int decimals_of(double number)
{
    static const double hair = 1e-7;
    double power = 1.0;
    int decimals = 0;
    while (decimals < DECIMALS_MOST && isfinite(number) &&
           fabs(number - round(number * power) / power) > hair) {
        power *= 10.0;
        decimals++;
    }
    return decimals;
}

static int most(int first, int second)
{
    return first > second ? first : second;
}

/* Those of a size; in the other system of units it may have no end of decimals. */
static int decimals_in(double si, bite_units units)
{
    int decimals = decimals_of(si / units_of_size[units].scale);
    return decimals < DECIMALS_MOST ? decimals : units_of_size[units].endless;
}

bite_size_form bite_size_form_of(const bite_characteristic *characteristic, double uncertainty,
                                 bite_units units)
{
    bite_size_form form = {units_of_size[units].unit, units_of_size[units].scale,
                           units_of_size[units].decimals, units};
    const double exact[] = {characteristic->lower, characteristic->upper, characteristic->nominal};
    for (size_t i = 0; i < sizeof exact / sizeof *exact; i++) {
        form.decimals = most(form.decimals, decimals_in(exact[i], units));
    }
    double finest = uncertainty / form.scale;
    int wanted = finest > 0.0 ? 1 - (int)floor(log10(finest)) : 0; /* two digits of it */
    form.decimals = most(form.decimals, wanted > form.decimals + 1 ? form.decimals + 1 : wanted);
    form.decimals = most(form.decimals, decimals_in(characteristic->resolution, units));
    form.decimals = form.decimals > DECIMALS_MOST ? DECIMALS_MOST : form.decimals;
    return form;
}

/* A number with all its decimals, the same in every locale. */
static void write_fixed(double number, int decimals, int sign, char *text, size_t size)
{
    static const double largest = 1e19; /* as a whole number of 64 bits */
    uint64_t power = 1;
    for (int i = 0; i < decimals; i++) {
        power *= 10;
    }
    double scaled = round(fabs(number) * (double)power);
    if (!(scaled < largest)) {
        (void)bite_number_write(number, 9, text, size);
        return;
    }
    uint64_t whole = (uint64_t)scaled;
    const char *before = whole == 0 ? "" : number < 0.0 ? "-" : sign ? "+" : "";
    (void)snprintf(text, size, "%s%" PRIu64 ".%0*" PRIu64, before, whole / power, decimals,
                   whole % power);
}

static bite_html_string fixed(const bite_size_form *form, double si, int sign, int unit)
{
    bite_html_string string = {"-"};
    char number[40];
    if (isfinite(si)) {
        write_fixed(si / form->scale, form->decimals, sign, number, sizeof number);
        (void)snprintf(string.text, sizeof string.text, unit ? "%.40s %.8s" : "%.40s", number,
                       form->unit);
    }
    return string;
}

bite_html_string bite_size_number(const bite_size_form *form, double si)
{
    return fixed(form, si, 0, 0);
}

bite_html_string bite_size_text(const bite_size_form *form, double si)
{
    return fixed(form, si, 0, 1);
}

bite_html_string bite_size_change(const bite_size_form *form, double si)
{
    return fixed(form, si, 1, 1);
}

bite_html_string bite_plain_number(double value, int digits)
{
    bite_html_string string = {"-"};
    if (isfinite(value)) {
        (void)bite_number_write(value, digits, string.text, sizeof string.text);
    }
    return string;
}

bite_html_string bite_size_spread_text(const bite_size_form *form, double si)
{
    static const struct {
        const char *unit;
        double scale;
    } small[] = {[BITE_METRIC] = {"um", 1e-6}, [BITE_INCH] = {"thou", 25.4e-6}};
    bite_html_string string = {"-"};
    double number = si / small[form->units].scale;
    if (fabs(number) >= 1000.0) {
        return bite_size_text(form, si);
    }
    if (isfinite(si)) {
        (void)snprintf(string.text, sizeof string.text, "%.40s %s",
                       bite_plain_number(number, fabs(number) >= 100.0 ? 3 : 2).text,
                       small[form->units].unit);
    }
    return string;
}

double bite_stated_nominal(const bite_characteristic *characteristic)
{
    return characteristic->nominal == 0.0 ? (double)NAN : characteristic->nominal;
}

bite_html_string bite_limits_text(const bite_size_form *form,
                                  const bite_characteristic *characteristic)
{
    bite_html_string string = {""};
    bite_html_string lower = bite_size_number(form, characteristic->lower);
    bite_html_string upper = bite_size_text(form, characteristic->upper);
    if (characteristic->judged) {
        (void)snprintf(string.text, sizeof string.text, "accepted or rejected");
    } else if (!isnan(characteristic->lower) && !isnan(characteristic->upper)) {
        (void)snprintf(string.text, sizeof string.text, "%.30s to %.34s", lower.text, upper.text);
    } else if (!isnan(characteristic->upper)) {
        (void)snprintf(string.text, sizeof string.text, "at most %.50s", upper.text);
    } else if (!isnan(characteristic->lower)) {
        (void)snprintf(string.text, sizeof string.text, "at least %.50s",
                       bite_size_text(form, characteristic->lower).text);
    } else {
        (void)snprintf(string.text, sizeof string.text, "no limits: reported only");
    }
    return string;
}

bite_html_string bite_moment_text(double seconds)
{
    bite_html_string string = {"-"};
    char text[BITE_RECORD_TIME_MAX];
    if (isfinite(seconds)) {
        bite_record_time_write(seconds, text);
        (void)snprintf(string.text, sizeof string.text, "%s", text);
    }
    return string;
}

bite_html_string bite_temperature_text(double kelvin, bite_units units)
{
    bite_html_string string = {"-"};
    char number[40];
    if (isfinite(kelvin)) {
        double celsius = kelvin - 273.15;
        write_fixed(units == BITE_INCH ? 1.8 * celsius + 32.0 : celsius, 1, 0, number,
                    sizeof number);
        (void)snprintf(string.text, sizeof string.text, "%s %s", number,
                       units == BITE_INCH ? "degF" : "degC");
    }
    return string;
}

bite_html_string bite_chance_text(double chance)
{
    static const double fine = 0.001;
    bite_html_string string = {"-"};
    if (!isfinite(chance)) {
        return string;
    }
    if (chance < fine || chance > 1.0 - fine) {
        (void)snprintf(string.text, sizeof string.text,
                       chance < fine ? "under 0.1 %%" : "over 99.9 %%");
        return string;
    }
    char number[40];
    write_fixed(100.0 * chance, 1, 0, number, sizeof number);
    (void)snprintf(string.text, sizeof string.text, "%s %%", number);
    return string;
}
