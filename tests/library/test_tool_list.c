/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tool lists: CSV with the symbols of ISO 13399 and assets of MTConnect, sound and hostile. Nothing
 * of a faulty list is taken, and the fault names file, line, tool and column. */
#include "core/library/collection.h"
#include "core/library/tool_list.h"
#include "core/library/tool_rows.h"
#include "core/library/tool_symbols.h"
#include "tests/support/open_library.h"
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef HAVE_CONFIG_H
#include <config.h>
#endif

static char path[700];

static void write_bytes(const char *bytes, size_t size)
{
    (void)snprintf(path, sizeof path, "%.600s/tools.list", shop.root);
    FILE *file = fopen(path, "wb");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_eq(fwrite(bytes, 1, size, file), size);
    ck_assert_int_eq(fclose(file), 0);
}

static bite_status read_bytes(const char *bytes, size_t size, bite_error *error)
{
    bite_table *table = NULL;
    write_bytes(bytes, size);
    bite_status status = bite_tool_list_open(bite_memory_default(), path, &table, error);
    ck_assert((status == BITE_OK) == (table != NULL));
    bite_table_free(table);
    return status;
}

static const char drawer[] =
    "name,kind,DC [mm],DCX [mm],ZEFP,APMX [mm],LU (mm),DN [mm],RE [mm],FHA,SIG,KAPR,SUBSTRATE,OAL,"
    "#price,summary\r\n"
    "T1,end-mill,3,,2,9,20,,,30,,90,HW,50,12.5,\"two flutes, long\"\r\n"
    "T2,ball-nose,4,,2,8,20,3.8,,,,,carbide,57,,\r\n"
    "T3,,2.5,,2,30,,,,,118,,HSS,57,,\r\n"
    "T4,chamfer,1,6,2,,,,,,,45,HW,50,,\r\n"
    ",,,,,,,,,,,,,,,\r\n"
    "T5,bull-nose,1/4in,,4,13,,,0.5,,,,HC,57,,\n";

static double figure(const bite_item_record *record, const char *key)
{
    const bite_field_value *value = bite_item_field(record, key);
    return value == NULL ? (double)NAN : value->value;
}

START_TEST(a_csv_is_read_by_its_symbols)
{
    static const struct {
        const char *name;
        const char *key;
        double value; /* SI; NaN: not stated */
    } cases[] = {{"t1", "diameter", 3e-3},
                 {"T1", "flutes", 2.0},
                 {"t1", "flute_length", 9e-3},
                 {"t1", "helix", 0.52359877559829887},
                 {"t1", "taper", (double)NAN},       /* 90 degrees is a plain end mill */
                 {"t1", "neck_length", (double)NAN}, /* no neck without its diameter */
                 {"t2", "corner_radius", 2e-3},
                 {"t2", "neck_length", 12e-3},
                 {"t2", "neck_diameter", 3.8e-3},
                 {"t3", "point_angle", 2.0594885173533086},
                 {"t4", "taper", 0.78539816339744831},
                 {"t4", "diameter", 6e-3},
                 {"t4", "tip_diameter", 1e-3},
                 {"t5", "diameter", 6.35e-3},
                 {"t5", "corner_radius", 0.5e-3}};
    write_bytes(drawer, sizeof drawer - 1);
    ck_assert_int_eq(bite_library_use_tools(library, path, NULL), BITE_OK);
    ck_assert_uint_eq(bite_library_count(library, BITE_TOOLS), 5);
    const bite_item_record *record = NULL;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(bite_library_record(library, BITE_TOOLS, cases[i].name, &record, &error) ==
                          BITE_OK,
                      "%s: %s", cases[i].name, error.message);
        double value = figure(record, cases[i].key);
        ck_assert_msg(isnan(cases[i].value) ? isnan(value) : fabs(value - cases[i].value) < 1e-9,
                      "%s of %s is %g", cases[i].key, cases[i].name, value);
    }
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "t3", &record, NULL), BITE_OK);
    ck_assert_str_eq(bite_item_text(record, "operation"), "drill");
    ck_assert_str_eq(bite_item_text(record, "tool_material"), "hss");
    ck_assert_str_eq(record->file, path);
    /* the tools of the tables are found by name, but not listed */
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "em-3-2", &record, NULL), BITE_OK);
    ck_assert_int_eq(bite_library_use_tools(library, path, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_use_tools(NULL, path, NULL), BITE_BAD_ARGUMENT);
    ck_assert_int_eq(bite_library_use_tools(library, NULL, NULL), BITE_BAD_ARGUMENT);
}
END_TEST

/* What makers' lists state in other ways: fractions of an inch, both leads, one pitch or two, the
 * number of teeth twice, a usable length without a neck. */
START_TEST(the_same_tool_in_other_words)
{
    static const char list[] =
        "name,kind,DC [in],DCX [in],ZEFP,NOF,APMX [in],LU [in],DN [in],RE [in],KAPR,PSIR,TP [mm],"
        "TPN [mm],TPX [mm],RPMX, #price,SUBSTRATE\n"
        "a,,1/8,,2,4,1-1/4,,,,,,,,,30000,9,hss\n"
        "b,ball-nose,1/4,,,3,,,,0.12,,0,,,,,,\n"
        "c,end-mill,6mm,6mm,4,,13mm,13mm,5mm,,90,,,,,,,\n"
        "d,engraving,0.1mm,3mm,1,,,,,,,30,,,,,,DP\n"
        "e,thread-mill,4.2mm,,3,,12mm,,,,,,1,,,,,\n"
        "f,thread-mill,4.2mm,,3,,1.9mm,,,,,,1,,,,,\n"
        "g,thread-mill,4.2mm,,3,,,,,,,,,0.5,1.5,,,,\n"
        "h,thread-mill,4.2mm,,3,,12mm,,,,,,1,0.8,,,,\n"
        "i,end-mill,6mm,,4,,13mm,20mm,6mm,,89.9999999,,,,,,,\n"
        "j,tap,3mm\nk,reamer,6mm\nl,ball-nose,4mm\n";
    static const struct {
        const char *name;
        const char *kind;
        const char *key;
        double value; /* SI; NaN: not stated */
    } cases[] = {{"a", "end-mill", "diameter", 3.175e-3},
                 {"a", "end-mill", "flute_length", 31.75e-3},
                 {"a", "end-mill", "flutes", 2.0},
                 {"a", "end-mill", "tool_turn_limit", 500.0},
                 {"b", "bull-nose", "corner_radius", 0.12 * 25.4e-3},
                 {"b", "bull-nose", "flutes", 3.0},
                 {"b", "bull-nose", "taper", (double)NAN},
                 {"c", "end-mill", "diameter", 6e-3},
                 {"c", "end-mill", "tip_diameter", (double)NAN},
                 {"c", "end-mill", "neck_length", (double)NAN},
                 {"d", "engraving", "taper", 0.52359877559829887},
                 {"d", "engraving", "diameter", 3e-3},
                 {"d", "engraving", "tip_diameter", 0.1e-3},
                 {"e", "thread-mill", "pitch_least", 1e-3},
                 {"e", "thread-mill", "pitch_most", 1e-3},
                 {"g", "thread-mill", "pitch_least", 0.5e-3},
                 {"g", "thread-mill", "pitch_most", 1.5e-3},
                 {"h", "thread-mill", "pitch_least", 0.8e-3},
                 {"h", "thread-mill", "pitch_most", 1e-3},
                 {"j", "tap", "diameter", 3e-3},
                 {"k", "reamer", "diameter", 6e-3},
                 {"l", "ball-nose", "corner_radius", 2e-3},
                 {"i", "end-mill", "taper", (double)NAN},
                 {"i", "end-mill", "neck_length", 7e-3}};
    bite_error error = BITE_ERROR_INIT;
    const bite_item_record *record = NULL;
    write_bytes(list, sizeof list - 1);
    ck_assert_msg(bite_library_use_tools(library, path, &error) == BITE_OK, "%s: %s", error.key,
                  error.message);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, cases[i].name, &record, NULL),
                         BITE_OK);
        double value = figure(record, cases[i].key);
        ck_assert_msg(isnan(cases[i].value) ? isnan(value) : fabs(value - cases[i].value) < 1e-9,
                      "%s of %s is %g", cases[i].key, cases[i].name, value);
        ck_assert_str_eq(bite_tool_kind(record), cases[i].kind);
    }
    /* long teeth of one pitch cut the whole thread at once */
    static const char *const names[] = {"e", "f", "g", "h", "j", "k"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, names[i], &record, NULL),
                         BITE_OK);
        ck_assert_int_eq(bite_item_is_yes(record, "full_form"), i == 0);
        ck_assert(bite_tool_makes_holes(record));
    }
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "a", &record, NULL), BITE_OK);
    ck_assert_str_eq(bite_item_text(record, "tool_material"), "hss");
    ck_assert(!bite_tool_makes_holes(record));
}
END_TEST

#define HEAD "name,DC [mm],ZEFP,APMX [mm]\n"
#define LONG40 "1234567890123456789012345678901234567890"

START_TEST(a_faulty_csv_is_refused_as_a_whole)
{
    static const struct {
        const char *text;
        uint32_t line;
        const char *key;
        const char *message;
    } cases[] = {
        {"", 1, "", "no column named"},
        {"name\n", 1, "", "the list has no tools"},
        {HEAD, 1, "", "the list has no tools"},
        {HEAD "T1,3,2,9\nT2,,2,9\n", 3, "T2:DC", "no cutting diameter"},
        {HEAD "T1,3,2,9\nT1,3,2,9\n", 3, "T1:name", ""},
        {HEAD "T1,3,2,9\nT2,900,2,9\n", 3, "T2:DC", ""},
        {HEAD "T1,-3,2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,nan,2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,1e999,2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,0,2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,3,two,9\n", 2, "T1:ZEFP", ""},
        {HEAD "T1,3,200,9\n", 2, "T1:ZEFP", ""},
        {HEAD "T1,3,5,2,9\n", 2, "T1", "more values than there are columns"},
        {HEAD "T1,3,2,9,,,x\n", 2, "T1", "more values than there are columns"},
        {HEAD "T1,\"3,5\",2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,3 furlong,2,9\n", 2, "T1:DC", ""},
        {HEAD ",3,2,9\n", 2, "name", "the tool has no name"},
        {HEAD "3mm,3,2,9\n", 2, "3mm:name", "begins with a letter"},
        {HEAD "T 1,3,2,9\n", 2, "T 1:name", "no blanks"},
        {HEAD "T]1,3,2,9\n", 2, "name", "letters, digits"},
        {HEAD "T1\n[tool.x],3,2,9\n", 2, "T1:DC", ""},
        {HEAD "T1,3;x=1,2,9\n", 2, "DC", "letters, digits"},
        {HEAD "T1,\"3,2,9\n", 2, "", "does not end on its line"},
        {HEAD "T1,\"3", 2, "", "a quoted value does not end"},
        {HEAD "\"" LONG40 LONG40 LONG40 LONG40 LONG40 LONG40 LONG40 "\",3\n", 2, "",
         "longer than 255 bytes"},
        {HEAD "T1,\"3\"x,2,9\n", 2, "", "a separator was expected"},
        {"name,DC\nT1,3\n", 2, "T1:DC", "bare number"},
        {"name,DC [mm\nT1,3\n", 1, "", "in brackets"},
        {"name,DC [],ZEFP\nT1,3,2\n", 1, "", "in brackets"},
        {"name,DC [mm],DC [in]\nT1,3,3\n", 1, "", "two columns are named DC"},
        {"name,DC [mm],diam\nT1,3,3\n", 1, "", "no column named diam"},
        {"DC [mm]\n3\n", 1, "", "no column is named name"},
        {"name,kind,DC [mm]\nT1,mill,3\n", 2, "T1:kind", "no kind of tool named mill"},
        {"name,kind,DC [mm]\nT1,chamfer,3\n", 2, "T1:kind", "KAPR"},
        {"name,DC [mm],KAPR\nT1,3,900\n", 2, "T1:KAPR", ""},
        {"name,DC [mm],SUBSTRATE\nT1,3,cheese\n", 2, "T1:SUBSTRATE", "not a tool material"},
        {"name,DC [mm],APMX [mm],LU [mm],DN [mm]\nT1,3,9,5,2.8\n", 2, "T1:LU", "shorter"},
        {"name,DC [mm],PSIR\nT1,3,nan\n", 2, "T1:PSIR", ""},
        {"name,kind,DC [mm],KAPR\nT1,chamfer,3,90\n", 2, "T1:kind", "KAPR"},
        {"name,kind,DC [mm],PSIR\nT1,chamfer,3,0\n", 2, "T1:kind", "KAPR"},
        {"name,kind,DC [mm]\nT1,bull-nose,3\n", 2, "T1:kind", "corner radius, RE"},
        {"name,kind,DC [mm]\nT1,thread-mill,3\n", 2, "T1:kind", "TPN and TPX, or TP"},
        {"name,kind,DC [mm],TPX [mm],TPN [mm]\nT1,thread-mill,3,1,1.5\n", 2, "T1:TPN", "above"},
        {"name,kind,DC [mm],TPX [mm]\nT1,thread-mill,3,1N\n", 2, "T1:TPX", ""},
        {"name,kind,DC [mm]\nT1,ball-nose,3N\n", 2, "T1:DC", ""},
        {"name,DC [mm],summary\nT1,3,\"a 1/8\"\" mill\"\n", 2, "summary", "without quotes"},
        {"name,DC [mm],summary\nT1,3,a\\b\n", 2, "summary", "without quotes"},
        {"name,DC [mm],summary\nT1,3,a\x7f\n", 2, "summary", "control characters"},
        {"name,DC [mm],summary\nT1,3,a\x01\n", 2, "summary", "control characters"},
        {"name,DC [mm],summary\nT1,3," LONG40 LONG40 LONG40 LONG40 "\n", 2, "summary",
         "at most 159 bytes"},
        {"name,DC [mm]\n" LONG40 LONG40 ",3\n", 2, "name", "too long: at most 63 bytes"},
        {"name,DC [mm]\nT1," LONG40 "12345678901234567890123\n", 2, "T1:DC", "too long"},
        {"name,DC [mm]\nT\x7f,3\n", 2, "name", "letters, digits"},
        {"name,DC [mm]\nT\xc3\xa4,3\n", 2, "name", "letters, digits"},
        {"name," LONG40 LONG40 "\nT1,3\n", 1, "", "too long: at most 63 bytes"},
        {"name,DC [millimillimetres]\nT1,3\n", 1, "", "too long: at most 15 bytes"},
        {"name,DC (mm]\nT1,3\n", 1, "", "in brackets"},
        {"name,,DC [mm]\nT1,,3\n", 1, "", "no column named \"\""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        bite_status status = read_bytes(cases[i].text, strlen(cases[i].text), &error);
        ck_assert_msg(status == BITE_BAD_FILE, "case %zu: %d", i, (int)status);
        ck_assert_str_eq(error.file, path);
        ck_assert_msg(error.line == cases[i].line && strcmp(error.key, cases[i].key) == 0,
                      "case %zu: line %u, %s: %s", i, error.line, error.key, error.message);
        ck_assert_msg(strstr(error.message, cases[i].message) != NULL, "case %zu: %s", i,
                      error.message);
    }
    write_bytes(HEAD "T1,900,2,9\n", strlen(HEAD "T1,900,2,9\n"));
    size_t before = bite_library_count(library, BITE_MACHINES);
    ck_assert_int_eq(bite_library_use_tools(library, path, NULL), BITE_BAD_FILE);
    ck_assert_uint_gt(bite_library_count(library, BITE_TOOLS), 20); /* those of the tables */
    ck_assert_uint_eq(bite_library_count(library, BITE_MACHINES), before);
    ck_assert_int_eq(bite_library_use_tools(library, "/nowhere.csv", NULL), BITE_NOT_FOUND);
}
END_TEST

START_TEST(separators_and_marks_of_spreadsheets)
{
    static const char *const sound[] = {"\xef\xbb\xbfname;DC [mm];ZEFP\r\nT1;3.5;2\r\n",
                                        "name\tDC [mm]\nT1\t3\n",
                                        " name , DC [mm] \n T1 , 3 \n\n\n",
                                        "name,\"DC [mm]\"\nT1,\"3\"",
                                        "name,DC\nT1,1/8in\n",
                                        "name,DC [mm], # of the shelf\nT1,3,7\n",
                                        "name,DC [mm]\n,\nT1,3,, ,\n",
                                        "name,DC [in],FHA [deg]\nT1,0.125,30\n"};
    for (size_t i = 0; i < sizeof sound / sizeof *sound; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_msg(read_bytes(sound[i], strlen(sound[i]), &error) == BITE_OK, "%s: %s", sound[i],
                      error.message);
    }
    bite_error error = BITE_ERROR_INIT;
    static const char comma[] = "name;DC [mm]\nT1;3,5\n"; /* a decimal comma */
    ck_assert_int_eq(read_bytes(comma, sizeof comma - 1, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.key, "T1:DC");
    ck_assert_msg(strstr(error.message, "comma") != NULL || strstr(error.hint, "point") != NULL,
                  "%s (%s)", error.message, error.hint);
    ck_assert_int_eq(read_bytes("name,DC\0\n", 9, &error), BITE_BAD_FILE);
}
END_TEST

static const char asset[] =
    "<?xml version=\"1.0\"?>\n"
    "<MTConnectAssets xmlns=\"urn:mtconnect.org:MTConnectAssets:2.4\"><Assets>\n"
    "<CuttingTool toolId=\"EM 6\" assetId=\"a\"><CuttingToolLifeCycle>\n"
    "<CutterStatus><Status>AVAILABLE</Status></CutterStatus><Measurements>\n"
    "<CuttingDiameterMax units=\"MILLIMETER\" nominal=\"6\">5.98</CuttingDiameterMax>\n"
    "<DepthOfCutMax nominal=\"13\"/><ShankDiameter code=\"DCONMS\"> 6 </ShankDiameter>\n"
    "<ProtrudingLength>28</ProtrudingLength><Mass>9</Mass></Measurements><CuttingItems>\n"
    "<CuttingItem><Measurements><CornerRadius code=\"RE\">0.5</CornerRadius></Measurements>\n"
    "</CuttingItem><CuttingItem><Measurements><CornerRadius>0.6</CornerRadius></Measurements>\n"
    "</CuttingItem></CuttingItems></CuttingToolLifeCycle></CuttingTool>\n"
    "<CuttingToolArchetype toolId=\"12\"><CuttingToolLifeCycle><Measurements>\n"
    "<CuttingDiameterMax units=\"INCH\">0.25</CuttingDiameterMax><x code=\"ZEFP\">3</x>\n"
    "</Measurements></CuttingToolLifeCycle></CuttingToolArchetype>\n"
    "<CuttingTool toolId=\"13\"><CuttingToolLifeCycle><CutterStatus><Status>USED</Status>\n"
    "<Status>BROKEN</Status></CutterStatus></CuttingToolLifeCycle></CuttingTool>\n"
    "<CuttingTool toolId=\"14\"><CutterStatus><Status> EXPIRED </Status></CutterStatus>\n"
    "</CuttingTool><CuttingTool toolId=\"D,3.3\"><Measurements>\n"
    "<CuttingDiameter>3.3<Deep code=\"RE\">5</Deep></CuttingDiameter>\n"
    "<PointAngle units=\"DEGREE\">118</PointAngle><Other code=\"OAL\">70</Other>\n"
    "<ToolCuttingEdgeAngle nominal=\"90\"/><Unknown>7</Unknown></Measurements></CuttingTool>\n"
    "</Assets></MTConnectAssets>\n";

#ifdef BITE_HAVE_EXPAT

START_TEST(an_asset_is_read_by_its_measurements)
{
    const bite_item_record *record = NULL;
    write_bytes(asset, sizeof asset - 1);
    bite_error error = BITE_ERROR_INIT;
    ck_assert_msg(bite_library_use_tools(library, path, &error) == BITE_OK, "%s", error.message);
    ck_assert_uint_eq(bite_library_count(library, BITE_TOOLS), 3); /* not the broken and spent */
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "d-3.3", &record, NULL), BITE_OK);
    ck_assert_str_eq(bite_tool_kind(record), "drill");
    ck_assert_double_eq_tol(figure(record, "diameter"), 3.3e-3, 1e-12);
    ck_assert_double_eq_tol(figure(record, "point_angle"), 2.0594885173533086, 1e-9);
    ck_assert(isnan(figure(record, "corner_radius")));
    ck_assert(isnan(figure(record, "taper")));
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "em-6", &record, NULL), BITE_OK);
    ck_assert_double_eq_tol(figure(record, "diameter"), 5.98e-3, 1e-12);
    ck_assert_double_eq_tol(figure(record, "flute_length"), 13e-3, 1e-12);
    ck_assert_double_eq_tol(figure(record, "shank_diameter"), 6e-3, 1e-12);
    ck_assert_double_eq_tol(figure(record, "stickout"), 28e-3, 1e-12);
    ck_assert_double_eq_tol(figure(record, "corner_radius"), 0.5e-3, 1e-12);
    ck_assert_int_eq(bite_library_record(library, BITE_TOOLS, "T12", &record, NULL), BITE_OK);
    ck_assert_double_eq_tol(figure(record, "diameter"), 6.35e-3, 1e-12);
    ck_assert_double_eq(figure(record, "flutes"), 3.0);
}
END_TEST

#define TOOL(more)                                                                                 \
    "<a>\n<CuttingTool toolId='T1'><Measurements>\n" more "</Measurements></CuttingTool></a>"

START_TEST(a_hostile_asset_is_refused)
{
    static const struct {
        const char *text;
        uint32_t line;
        const char *message;
    } cases[] = {
        {"<!DOCTYPE a [<!ENTITY x 'ha'><!ENTITY y '&x;&x;&x;'>]>\n<a>&y;</a>", 1, "document type"},
        {"<!DOCTYPE a SYSTEM 'file:///etc/passwd'><a/>", 1, "document type"},
        {"<a>&x;</a>", 1, "not sound XML"},
        {"<a><b></a>", 1, "not sound XML"},
        {"<a", 1, "not sound XML"},
        {"<a/>", 1, "the list has no tools"},
        {"<a><CuttingTool/></a>", 1, "no toolId"},
        {TOOL("<CuttingDiameter>900</CuttingDiameter>"), 2, ""},
        {TOOL("<CuttingDiameter>6,5</CuttingDiameter>"), 2, ""},
        {TOOL("<CuttingDiameter>1e999</CuttingDiameter>"), 2, ""},
        {TOOL("<CuttingDiameter units='PARSEC'>6</CuttingDiameter>"), 3, "units"},
        {TOOL("<CuttingDiameter>6]\n[tool.x</CuttingDiameter>"), 2, "letters, digits"},
        {TOOL(""), 2, "no cutting diameter"},
        {"<a><CuttingTool toolId=''/></a>", 1, "no toolId"},
        {"<a><CuttingTool toolId='" LONG40 LONG40 "'/></a>", 1, "toolId is too long"},
        {"<a><CuttingTool toolId='T=1'/></a>", 1, "letters, digits"},
        {TOOL("<CuttingDiameter>" LONG40 LONG40 "</CuttingDiameter>"), 3, "the text is too long"},
        {TOOL("<CuttingDiameter>6</CuttingDiameter>") "<!-- -->x", 3, "not sound XML"},
        {"<a>\n<CuttingTool toolId='T1'><Status>" LONG40 LONG40 "</Status></CuttingTool></a>", 2,
         "the text is too long"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        bite_error error = BITE_ERROR_INIT;
        ck_assert_int_eq(read_bytes(cases[i].text, strlen(cases[i].text), &error), BITE_BAD_FILE);
        ck_assert_msg(error.line == cases[i].line &&
                          strstr(error.message, cases[i].message) != NULL,
                      "case %zu: line %u: %s", i, error.line, error.message);
    }
    static char deep[4096];
    size_t used = 0;
    for (int i = 0; i < 1000; i++) {
        used += (size_t)snprintf(deep + used, sizeof deep - used, "<a>");
    }
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(read_bytes(deep, used, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "the elements are nested too deeply");
}
END_TEST

#else

START_TEST(an_asset_is_refused_without_expat)
{
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(read_bytes(asset, sizeof asset - 1, &error), BITE_BAD_FILE);
    ck_assert(strstr(error.message, "expat") != NULL);
}
END_TEST

#endif

/* Every beginning of a list, and every list with one byte changed, is read or refused, never more.
 */
START_TEST(damaged_lists_are_read_or_refused)
{
    static const struct {
        const char *text;
        size_t size;
    } lists[] = {{drawer, sizeof drawer - 1}, {asset, sizeof asset - 1}};
    static const char bytes[] = {'"', ',', '\n', '<', '&', ']', '=', '\xff', 1};
    static char text[4096];
    size_t refused = 0;
    for (size_t l = 0; l < 2; l++) {
        for (size_t cut = 0; cut < lists[l].size; cut += 3) {
            bite_error error = BITE_ERROR_INIT;
            memcpy(text, lists[l].text, lists[l].size);
            bite_status status = read_bytes(text, cut, &error);
            ck_assert(status == BITE_OK || (status == BITE_BAD_FILE && error.message[0] != 0));
            refused += status != BITE_OK;
            text[cut] = bytes[cut % sizeof bytes];
            status = read_bytes(text, lists[l].size, &error);
            ck_assert(status == BITE_OK || (status == BITE_BAD_FILE && error.message[0] != 0));
        }
    }
    ck_assert_uint_gt(refused, 100);
}
END_TEST

START_TEST(a_list_has_so_many_columns)
{
    char text[600] = "name,DC [mm]";
    bite_error error = BITE_ERROR_INIT;
    for (int i = 0; i < BITE_TOOL_COLUMNS_MAX - 2; i++) {
        strcat(text, ",#");
    }
    size_t head = strlen(text);
    strcat(text, "\nT1,3\n");
    ck_assert_int_eq(read_bytes(text, strlen(text), &error), BITE_OK);
    (void)snprintf(text + head, sizeof text - head, ",#\nT1,3\n");
    ck_assert_int_eq(read_bytes(text, strlen(text), &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "the list has more than 64 columns");
    ck_assert_uint_eq(error.line, 1);
}
END_TEST

/* More tools than a list may have, and a file larger than a table may be. */
START_TEST(a_list_without_end_is_refused)
{
    size_t size = (size_t)2 << 20;
    char *text = malloc(size);
    size_t used = 0;
    ck_assert_ptr_nonnull(text);
    used += (size_t)snprintf(text, size, "name,DC [mm]\n");
    for (int i = 0; i < 2001; i++) {
        used += (size_t)snprintf(text + used, size - used, "T%d,3\n", i);
    }
    bite_error error = BITE_ERROR_INIT;
    ck_assert_int_eq(read_bytes(text, used, &error), BITE_BAD_FILE);
    ck_assert_str_eq(error.message, "the list has more than 2000 tools");
    ck_assert_uint_eq(error.line, 2002);
    memset(text, '\n', size);
    memcpy(text, "name,DC [mm]\n", 13);
    ck_assert_int_eq(read_bytes(text, size, &error), BITE_BAD_FILE);
    free(text);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("tool list");
    TCase *tests = tcase_create("tool list");
    tcase_add_checked_fixture(tests, open_library, close_library);
    tcase_add_test(tests, a_csv_is_read_by_its_symbols);
    tcase_add_test(tests, the_same_tool_in_other_words);
    tcase_add_test(tests, a_faulty_csv_is_refused_as_a_whole);
    tcase_add_test(tests, separators_and_marks_of_spreadsheets);
#ifdef BITE_HAVE_EXPAT
    tcase_add_test(tests, an_asset_is_read_by_its_measurements);
    tcase_add_test(tests, a_hostile_asset_is_refused);
#else
    tcase_add_test(tests, an_asset_is_refused_without_expat);
#endif
    tcase_add_test(tests, damaged_lists_are_read_or_refused);
    tcase_add_test(tests, a_list_has_so_many_columns);
    tcase_add_test(tests, a_list_without_end_is_refused);
    tcase_set_timeout(tests, 120);
    suite_add_tcase(suite, tests);
    return bite_test_run(suite);
}
