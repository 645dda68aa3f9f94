/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tolerances of standards, by class and range of nominal size. */
#include "core/inspection/general_tolerance.h"
#include "core/base/error.h"
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#define COUNT(list) (sizeof list / sizeof *list)
#define MM 1e-3
#define UM 1e-6
#define NONE 0.0 /* the class has no tolerance in that range */

enum { FINE, MEDIUM, COARSE, VERY_COARSE, GENERAL_CLASSES };

/* ISO 2768-1, linear sizes: above `over` up to and including the next, mm; plus or minus, mm. Read
 * in reprinted tables. The second of two readings of class c below 6 mm: one copy prints 0.15. */
static const struct {
    double over;
    double deviation[GENERAL_CLASSES];
} general[] = {{0.5, {0.05, 0.1, 0.2, NONE}}, /* from 0.5 mm on */
               {3.0, {0.05, 0.1, 0.3, 0.5}},   {6.0, {0.1, 0.2, 0.5, 1.0}},
               {30.0, {0.15, 0.3, 0.8, 1.5}},  {120.0, {0.2, 0.5, 1.2, 2.5}},
               {400.0, {0.3, 0.8, 2.0, 4.0}},  {1000.0, {0.5, 1.2, 3.0, 6.0}},
               {2000.0, {NONE, 2.0, 4.0, 8.0}}};
static const double general_least = 0.5;   /* mm */
static const double general_most = 4000.0; /* mm */

#define GRADE_FIRST 5
#define GRADE_LAST 14

/* ISO 286-1: the width of grades 5 to 14, um, of nominal sizes above `over`, mm. Grades 6 to 9, 11
 * and 12 from 3 mm to 30 mm were read in reprints; the others are memory. */
static const struct {
    double over;
    double width[GRADE_LAST - GRADE_FIRST + 1];
} grades[] = {{0.0, {4, 6, 10, 14, 25, 40, 60, 100, 140, 250}},
              {3.0, {5, 8, 12, 18, 30, 48, 75, 120, 180, 300}},
              {6.0, {6, 9, 15, 22, 36, 58, 90, 150, 220, 360}},
              {10.0, {8, 11, 18, 27, 43, 70, 110, 180, 270, 430}},
              {18.0, {9, 13, 21, 33, 52, 84, 130, 210, 330, 520}},
              {30.0, {11, 16, 25, 39, 62, 100, 160, 250, 390, 620}},
              {50.0, {13, 19, 30, 46, 74, 120, 190, 300, 460, 740}},
              {80.0, {15, 22, 35, 54, 87, 140, 220, 350, 540, 870}},
              {120.0, {18, 25, 40, 63, 100, 160, 250, 400, 630, 1000}},
              {180.0, {20, 29, 46, 72, 115, 185, 290, 460, 720, 1150}},
              {250.0, {23, 32, 52, 81, 130, 210, 320, 520, 810, 1300}},
              {315.0, {25, 36, 57, 89, 140, 230, 360, 570, 890, 1400}},
              {400.0, {27, 40, 63, 97, 155, 250, 400, 630, 970, 1550}}};
static const double grades_most = 500.0; /* mm */

/* Which side of the nominal size a grade lies on: its letters, as ISO 286 writes them. */
static const struct {
    const char *letters;
    double lower; /* share of the width */
    double upper;
} positions[] = {{"js", -0.5, 0.5}, {"JS", -0.5, 0.5}, {"h", -1.0, 0.0}, {"H", 0.0, 1.0}};

static const char *const general_names[GENERAL_CLASSES] = {"ISO 2768-1 f", "ISO 2768-1 m",
                                                           "ISO 2768-1 c", "ISO 2768-1 v"};

static bite_status no_such_class(const char *name, bite_error *error)
{
    bite_error_set(error, BITE_UNKNOWN_NAME, "there is no tolerance class %.40s", name);
    bite_error_hint(error, "such as 2768-m, or h9, H9 or js9; grades 5 to 14");
    return BITE_UNKNOWN_NAME;
}

static bite_status no_tolerance(const char *name, double nominal, bite_error *error)
{
    bite_error_set(error, BITE_OUT_OF_RANGE, "class %.40s has no tolerance for a size of %.6g mm",
                   name, nominal / MM);
    bite_error_hint(error, "state the tolerance or the limits themselves");
    return BITE_OUT_OF_RANGE;
}

/* "2768-m", "iso 2768 m", "ISO2768-mK": the class of lengths; -1: another name. */
static int general_class(const char *name)
{
    static const char letters[] = "fmcv";
    const char *at = name;
    if (strncmp(at, "iso", 3) == 0 || strncmp(at, "ISO", 3) == 0) {
        at += 3;
    }
    at += strspn(at, " -");
    if (strncmp(at, "2768", 4) != 0) {
        return -1;
    }
    at += 4;
    at += strspn(at, " -");
    if (strncmp(at, "1", 1) == 0) { /* part 1 */
        at++;
        at += strspn(at, " -");
    }
    const char *letter = *at == 0 ? NULL : strchr(letters, *at);
    int has_form = letter != NULL && at[1] >= 'H' && at[1] <= 'L' && at[2] == 0; /* of ISO 2768-2 */
    return letter != NULL && (at[1] == 0 || has_form) ? (int)(letter - letters) : -1;
}

static bite_status general_of(int class, const char *name, double size, bite_tolerance *tolerance,
                              bite_error *error)
{
    size_t at = 0;
    for (size_t i = 1; i < COUNT(general); i++) {
        at = size > general[i].over * (1.0 + 1e-12) ? i : at;
    }
    double deviation = general[at].deviation[class];
    if (size < general_least * (1.0 - 1e-12) || size > general_most * (1.0 + 1e-12) ||
        deviation == NONE) {
        return no_tolerance(name, size * MM, error);
    }
    tolerance->lower = -deviation * MM;
    tolerance->upper = deviation * MM;
    tolerance->standard = general_names[class];
    tolerance->source = "standard: ISO 2768-1 as reprinted";
    return BITE_OK;
}

/* The position and the grade of a name such as js9; 0: it is not one. */
static int read_grade(const char *name, size_t *position, int *grade)
{
    for (size_t i = 0; i < COUNT(positions); i++) {
        size_t length = strlen(positions[i].letters);
        const char *digits = name + length;
        size_t count =
            strncmp(name, positions[i].letters, length) == 0 ? strspn(digits, "0123456789") : 0;
        if (count >= 1 && count <= 2 && digits[count] == 0) {
            *position = i;
            *grade = count == 1 ? digits[0] - '0' : 10 * (digits[0] - '0') + digits[1] - '0';
            return *grade >= GRADE_FIRST && *grade <= GRADE_LAST;
        }
    }
    return 0;
}

static bite_status grade_of(size_t position, int grade, const char *name, double size,
                            bite_tolerance *tolerance, bite_error *error)
{
    size_t at = 0;
    for (size_t i = 1; i < COUNT(grades); i++) {
        at = size > grades[i].over * (1.0 + 1e-12) ? i : at;
    }
    if (!(size > 0.0) || size > grades_most * (1.0 + 1e-12)) {
        return no_tolerance(name, size * MM, error);
    }
    int read = at >= 1 && at <= 4 && grade >= 6 && grade <= 12 && grade != 10;
    double width = grades[at].width[grade - GRADE_FIRST] * UM;
    tolerance->lower = positions[position].lower * width;
    tolerance->upper = positions[position].upper * width;
    tolerance->standard = "ISO 286-1";
    tolerance->source = read ? "standard: ISO 286-1 as reprinted" : "memory: ISO 286-1";
    return BITE_OK;
}

bite_status bite_general_tolerance(const char *name, double nominal, bite_tolerance *tolerance,
                                   bite_error *error)
{
    size_t position = 0;
    int grade = 0;
    int class = general_class(name);
    double size = nominal / MM;
    if (isnan(nominal)) {
        return no_tolerance(name, nominal, error);
    }
    if (class >= 0) {
        return general_of(class, name, size, tolerance, error);
    }
    return read_grade(name, &position, &grade)
               ? grade_of(position, grade, name, size, tolerance, error)
               : no_such_class(name, error);
}
