#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The library with another C library, musl: every source compiles without a warning, every symbol that
# it needs is in musl or in the libraries that it uses, and a pass, a band and a batch run. GSL,
# jansson, iniparser and expat are those of the system, built for its own C library, so what needs
# them is compiled and its symbols are compared, but it does not run. Skipped without musl-gcc.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $source in /*) ;; *) source=$PWD/$source ;; esac
case $build in /*) ;; *) build=$PWD/$build ;; esac
command -v musl-gcc >/dev/null 2>&1 || { echo "musl-gcc is not here"; exit 77; }
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
failures=0
bad() { echo "$*"; failures=$((failures + 1)); }
mkdir "$work/include" "$work/o"

# The headers of the libraries alone, not those of the other C library.
for name in gsl iniparser jansson.h jansson_config.h expat.h expat_config.h expat_external.h; do
    for folder in /usr/include /usr/local/include /usr/include/*-linux-gnu; do
        [ -e "$folder/$name" ] && ln -sfn "$folder/$name" "$work/include/$name"
    done
done

# What configure found, without what depends on the C library; that is asked again.
grep -vE '^#define (HAVE_(MEMFD_CREATE|SECURE_GETENV|SCHED_GETAFFINITY|PTHREAD_ATTR_SETAFFINITY_NP|SYS_PRCTL_H|SYS_VFS_H)|STRERROR_R_CHAR_P) ' \
    "$build/config.h" >"$work/config.h"
for name in memfd_create secure_getenv sched_getaffinity pthread_attr_setaffinity_np; do
    printf 'char %s(void);\nint main(void) { return %s(); }\n' $name $name >"$work/try.c"
    if musl-gcc -fno-builtin "$work/try.c" -o "$work/try" 2>/dev/null; then
        echo "#define HAVE_$(echo $name | tr a-z A-Z) 1" >>"$work/config.h"
    fi
done
for name in sys/prctl.h sys/vfs.h; do
    echo "#include <$name>" | musl-gcc -E - >/dev/null 2>&1 &&
        echo "#define HAVE_$(echo $name | tr a-z/. A-Z__) 1" >>"$work/config.h"
done

# -D_GNU_SOURCE, as the library is built. The warning is about numbers that dates cannot have.
flags="-std=gnu17 -O1 -fPIC -D_GNU_SOURCE -DHAVE_CONFIG_H -Wall -Wextra -Werror -Wno-format-truncation
    -I$work -I$source -I$source/include -isystem $work/include"
set +e
find "$source/core" -name '*.c' >"$work/sources"
export flags work
xargs -P 2 -n 1 sh -c '
    object=$work/o/$(echo "$1" | tr / _ | sed "s/\.c\$//").o
    musl-gcc $flags -DBITE_FAMILY_DIR="\"/usr/lib/coolbite/families\"" -DBITE_TABLE_DIR="\"/usr/share/coolbite/tables\"" \
        -c "$1" -o "$object" 2>"$object.log" || { echo "$1 does not compile:"; head -n 5 "$object.log"; }' compile \
    <"$work/sources" >"$work/log"
[ -s "$work/log" ] && bad "$(cat "$work/log")"
rm -f "$work"/o/*.log
[ "$(ls "$work/o" | wc -l)" -ge 200 ] || bad "only $(ls "$work/o" | wc -l) objects were made"

# What is undefined: in musl, or in a library that is used.
nm -u "$work"/o/*.o | sed -n 's/^ *[Uwv] //p' | sort -u >"$work/needed"
nm --defined-only "$work"/o/*.o | awk 'NF == 3 { print $3 }' | sort -u >"$work/own"
for musl in /usr/lib/*-musl/libc.a /usr/lib/musl/lib/libc.a /usr/local/musl/lib/libc.a; do
    [ -e "$musl" ] && break
done
nm --defined-only "$musl" 2>/dev/null | awk 'NF == 3 { print $3 }' | sort -u >"$work/musl"
grep -qx __stdio_write "$work/musl" || bad "the symbols of musl were not found"
comm -23 "$work/needed" "$work/own" | comm -23 - "$work/musl" |
    grep -vE '^(gsl_|json_|jsonp_|iniparser_|dictionary_|XML_|_GLOBAL_OFFSET_TABLE_$|__(add|sub|mul|udiv|div|u?mod|cpu_)|__tls_get_addr$)' >"$work/missing"
[ -s "$work/missing" ] && bad "musl has no: $(tr '\n' ' ' <"$work/missing")"

# A program of the first of the three ways in; GSL's points of the draws are its only library.
cat >"$work/pass.c" <<'C'
#include <coolbite/coolbite.h>
#include <math.h>
#include <stdio.h>
int main(void)
{
    static double power[300];
    bite_cut cut;
    bite_result result;
    bite_error error = BITE_ERROR_INIT;
    bite_batch *batch = NULL;
    const bite_batch_output output = {BITE_BATCH_VALUE, BITE_POWER_MEAN};
    const bite_result_column out = {power, 1};
    bite_cut_init(&cut);
    bite_result_init(&result);
    cut.spindle_speed = 200.0;
    cut.feed_rate = 0.01;
    cut.depth = 1e-3;
    cut.diameter = 6e-3;
    cut.pressure = BITE_PRESSURE_EDGE;
    cut.pressure_t = 8e8;
    cut.edge_t = 2e4;
    cut.density = 2700.0;
    cut.heat_capacity = 900.0;
    cut.conductivity = 167.0;
    cut.yield = cut.shear_strength = 3e8;
    cut.friction = 0.5;
    cut.modulus = 69e9;
    if (bite_cut_pass(&cut, &result, &error) != BITE_OK ||
        bite_batch_new(NULL, &cut, NULL, 0, &output, 1, &batch, &error) != BITE_OK ||
        bite_batch_run(batch, 300, NULL, &out, NULL, 2, NULL, &error) != BITE_OK) {
        printf("%s\n", error.message);
        return 1;
    }
    bite_batch_free(batch);
    printf("%.9e %.9e\n", result.values[BITE_POWER_MEAN].value, power[299]);
    return 0;
}
C
ar rcs "$work/libbite.a" "$work"/o/*.o
if musl-gcc -O1 -static -I"$source/include" "$work/pass.c" "$work/libbite.a" -lm -o "$work/pass" 2>"$work/log"; then
    with_musl=$("$work/pass") || bad "the program with musl fails: $with_musl"
    cc=${CC:-gcc}
    "$cc" -O1 -I"$source/include" "$work/pass.c" -L"$build/.libs" -Wl,-rpath,"$build/.libs" -lcoolbite -lm -o "$work/usual" &&
        usual=$("$work/usual") || bad "the same program with the usual library fails"
    printf '%s\n%s\n' "$with_musl" "${usual:-}" | awk '
        NR == 1 { a = $1; b = $2 }
        NR == 2 { close_to = (a - $1) ^ 2 <= 1e-18 * a ^ 2 && (b - $2) ^ 2 <= 1e-18 * b ^ 2 && a > 1 }
        END { exit !close_to }' || bad "musl: $with_musl, else: ${usual:-}"
else
    bad "the program does not link: $(tail -n 3 "$work/log")"
fi
[ "$failures" -eq 0 ] && echo "$(ls "$work/o" | wc -l) objects"
[ "$failures" -eq 0 ]
