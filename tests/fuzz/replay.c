/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs a fuzz target as an ordinary test: on seeds, small mutations of them and random bytes, the
 * same in every run; then on the files of tests/fuzz/seeds/TARGET, on which it once failed. */
#include <dirent.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* Rounds for each seed in `make check`: fewer of what takes longer. */
extern const long bite_fuzz_rounds;

static const char *const seeds[] = {
    "0.8mm",
    "1-1/4in",
    "18000rpm",
    "0.02mm/tooth",
    "-40degF",
    "1e-3 1/K",
    "3 %",
    "0,5mm",
    "1/32",
    "[format]\nkind = toys\nversion = 1\n[grade.a]\ntitle = \"a # b\"\ndensity = 1190 kg/m3 (1170 "
    ".. 1200)\ndensity.source = "
    "paper: X 2001\n",
    "[format]\nkind = toys\nversion = 1\n[grade.a]\nstrength.at = 23degC 80MPa, 70degC "
    "40MPa\nsource = memory\n[grade.b]\nlike = "
    "a\n",
    "[format]\nkind = job\nversion = 1\n[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = "
    "30 mm\nthickness = 2 "
    "mm\n[hold]\nmethod = tape-glue\n[fluids]\ncleaner = ipa\n[pass.a]\nwork = slot\ntool = "
    "2mm\nspindle = 9000rpm\nfeed = "
    "0.02mm/tooth\ndepth = 1 mm\n[pass.b]\nwork = finish\ntool = 2mm\nspindle = 9000rpm\nfeed = "
    "400mm/min\nwidth = 0.1 "
    "mm\nafter = a\n",
    "[format]\nkind = record\nversion = 1\n[record]\nlot = 7\n[characteristic.1]\nwhat = "
    "width\nlower = 1 mm\n[readings]\n9 seal head=1a2b3c4d ~00000000\n10 read ",
    "characteristic,part,value,person,temperature,time,note,trial\n1,1,2.9,Ann,23degC,"
    "2026-11-30T19:25:49Z,\"a, b\",1\n1,2,2.95mm!,,,,,\n",
    "\016id,tool,spindle [rpm],feed [mm/min],depth\n1,3mm,9000,300,0.2mm\n\"a,b\",1/8in,9000,0.03,"
    "0.01in\n",
    "\017{\"tool\": \"3mm\", \"spindle\": \"9000rpm\", \"feed [mm/min]\": 300, \"depth\": "
    "\"0.2mm\"}\n",
    "{\"spindle_speed [rpm]\": 9000, \"feed_rate\": \"300mm/min\", \"depth\": null, \"coolant\": "
    "\"air\", \"tool\": \"1mm\"}",
    "name,DC,NOF,LCF,LPR,RE\nA1,3,2,12,30,0\nB2,\"6\",3,20,40,0.5\n",
    "<MTConnectAssets><Assets><CuttingTool toolId=\"1\"><CuttingToolLifeCycle><Measurements>"
    "<CuttingDiameter code=\"DC\" nominal=\"3\">3</CuttingDiameter></Measurements>"
    "</CuttingToolLifeCycle></CuttingTool></Assets></MTConnectAssets>",
    "\001--material\nacrylic/cast\n--tool=3mm\n--spindle\n9000rpm\n--feed\n300mm/"
    "min\n--depth\n0.2mm\n"
    "--format\njson\n--draws\n64",
    "8 seal head=1a2b3c4d\n9 read characteristic=1 part=1 trial=1 value=\"3mm\" "
    "temperature=23degC time=2026-11-30T19:25:49Z person=\"Ann\"\n10 correct of=9 "
    "characteristic=1 part=1 trial=1 value=\"2.9 mm\"\n11 undo of=10 note=\"slip\"\n12 skip "
    "characteristic=1 part=2 note=\"no access\"\n",
};

/* xorshift32 */
static uint32_t next_random(uint32_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 17;
    *state ^= *state << 5;
    return *state;
}

static size_t mutate(uint8_t *text, size_t size, size_t capacity, uint32_t *state)
{
    size_t at = size == 0 ? 0 : next_random(state) % size;
    switch (next_random(state) % 4) {
    case 0: /* replace a byte */
        text[at] = (uint8_t)next_random(state);
        return size;
    case 1: /* delete a byte */
        memmove(text + at, text + at + 1, size - at - (size > 0));
        return size - (size > 0);
    case 2: /* insert a character with a meaning in tables or quantities */
        if (size < capacity) {
            memmove(text + at + 1, text + at, size - at);
            text[at] = (uint8_t) "=[]#;\"'\\\n\r.,-/()0eE%\t\0 "[next_random(state) % 23];
            return size + 1;
        }
        return size;
    default: /* repeat a piece */
        if (size > 2 && size + size / 3 < capacity) {
            memmove(text + at, text + at / 2, size - at);
        }
        return size;
    }
}

/* Random bytes; returns how many. */
static size_t random_bytes(uint8_t *text, size_t capacity, uint32_t *state)
{
    size_t size = next_random(state) % (capacity / 2);
    for (size_t i = 0; i < size; i++) {
        text[i] = (uint8_t)(next_random(state) >> 8);
    }
    return size;
}

/* Writes the seeds as files, for a fuzzer to begin from. */
static int write_seeds(const char *folder)
{
    for (size_t i = 0; i < sizeof seeds / sizeof *seeds; i++) {
        char path[1024];
        (void)snprintf(path, sizeof path, "%s/seed-%zu", folder, i);
        FILE *file = fopen(path, "wb");
        if (file == NULL || fwrite(seeds[i], 1, strlen(seeds[i]), file) != strlen(seeds[i]) ||
            fclose(file) != 0) {
            perror(path);
            return EXIT_FAILURE;
        }
    }
    return EXIT_SUCCESS;
}

static bool replay_file(const char *path)
{
    static uint8_t bytes[1 << 20];
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        return false;
    }
    size_t size = fread(bytes, 1, sizeof bytes, file);
    (void)fclose(file);
    (void)LLVMFuzzerTestOneInput(bytes, size);
    return true;
}

/* Replays the findings of the target that this program, .../replay_TARGET, is. Returns how many;
 * -1: one cannot be read. */
static long replay_findings(const char *program)
{
    char path[2048];
    long done = 0;
    const char *source = getenv("BITE_TEST_SOURCE");
    const char *name = strstr(program, "replay_");
    (void)snprintf(path, sizeof path, "%s/tests/fuzz/seeds/%s", source == NULL ? "." : source,
                   name == NULL ? "" : name + strlen("replay_"));
    DIR *folder = opendir(path); /* most targets have none */
    for (struct dirent *entry; folder != NULL && done >= 0 && (entry = readdir(folder)) != NULL;) {
        size_t length = strlen(path);
        if (entry->d_name[0] != '.') {
            (void)snprintf(path + length, sizeof path - length, "/%s", entry->d_name);
            done = replay_file(path) ? done + 1 : -1;
            path[length] = 0;
        }
    }
    if (folder != NULL) {
        (void)closedir(folder);
    }
    return done;
}

int main(int count, char **words)
{
    const char *rounds_wanted = getenv("BITE_FUZZ_ROUNDS");
    long rounds = rounds_wanted == NULL ? bite_fuzz_rounds : strtol(rounds_wanted, NULL, 10);
    uint32_t state = 2463534242u;
    long done = 0;
    uint8_t text[1024];
    if (getenv("BITE_FUZZ_SEEDS") != NULL) {
        return write_seeds(getenv("BITE_FUZZ_SEEDS"));
    }
    for (size_t i = 0; i < sizeof seeds / sizeof *seeds; i++) {
        for (long round = 0; round < rounds; round++) {
            size_t size = strlen(seeds[i]);
            memcpy(text, seeds[i], size);
            for (uint32_t changes = round == 0 ? 0 : 1 + next_random(&state) % 6; changes > 0;
                 changes--) {
                size = mutate(text, size, sizeof text, &state);
            }
            (void)LLVMFuzzerTestOneInput(text, size);
            done++;
        }
    }
    for (long round = 0; round < rounds; round++, done++) {
        (void)LLVMFuzzerTestOneInput(text, random_bytes(text, sizeof text, &state));
    }
    long findings = count > 0 ? replay_findings(words[0]) : 0;
    if (findings < 0) {
        return EXIT_FAILURE;
    }
    done += findings;
    printf("%ld inputs\n", done);
    return done > 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
